/**
 * What is counted, and where: the function or method of the kernel whose every
 * call adds one to `globalThis.kernelWork`.
 *
 * @type {readonly { readonly name: string; readonly counts: 'exponentials' | 'readings' }[]}
 */
const counted = [
	{ name: 'decayInPlace', counts: 'exponentials' },
	{ name: 'vote', counts: 'readings' },
];
const library = "import exp from '@stdlib/math-base-special-exp';";

/**
 * For the bench's counts alone: a build whose kernel counts what it does. The
 * kernel itself counts nothing, since a counter in its hot loop would cost more
 * than much of what it counts.
 *
 * @returns {import('vite').Plugin}
 */
export function countKernel() {
	const met = new Set();
	return {
		name: 'count-kernel',
		enforce: 'pre',
		transform: {
			filter: { id: /\/shared\/(drive|maths)\/.*\.ts$/ },
			handler(code) {
				let text = code;
				for (const { name, counts } of counted) {
					const head = new RegExp(`^((?:export function|\\tprivate|\\t) ?${name}\\([^)]*\\)[^{;]*\\{)$`, 'm');
					if (!head.test(text)) continue;
					met.add(name);
					text = text.replace(head, `$1 globalThis.kernelWork.${counts}++;`);
				}
				// where a function counts already, the library's is a way that it goes
				if (text === code) {
					text = text.replace(
						library,
						`${library.replace('exp', 'plainExp')} const exp = (x: number) => { globalThis.kernelWork.exponentials++; return plainExp(x); };`,
					);
				}
				return text === code ? null : { code: text, map: null };
			},
		},
		buildEnd() {
			const missing = counted.filter(({ name }) => !met.has(name));
			if (missing.length > 0) throw new Error(`the kernel has no ${missing.map(({ name }) => name)} to be counted`);
		},
	};
}
