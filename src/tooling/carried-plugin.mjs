import { withoutEval } from './without-eval.mjs';

const mark = /\?carried$/;

/**
 * `import code from './check.ts?carried'`: the source with everything that it
 * imports as one script of its own, minified, as text. A report carries it, to
 * be run from the reader's own file.
 *
 * @returns {import('vite').Plugin}
 */
export function carried() {
	return {
		name: 'carried',
		enforce: 'pre',
		resolveId: {
			filter: { id: mark },
			async handler(source, importer) {
				const found = await this.resolve(source.replace(mark, ''), importer, { skipSelf: true });
				return found && `${found.id}?carried`;
			},
		},
		load: {
			filter: { id: mark },
			async handler(id) {
				const { build } = await import('vite');
				const built = await build({
					configFile: false,
					logLevel: 'warn',
					resolve: { alias: withoutEval },
					build: {
						write: false,
						target: 'es2023',
						lib: { entry: id.replace(mark, ''), formats: ['iife'], name: 'carried' },
					},
				});
				const [first] = Array.isArray(built) ? built : [built];
				const chunk = first && 'output' in first ? first.output.find(({ type }) => type === 'chunk') : undefined;
				if (chunk?.type !== 'chunk') throw new Error(`nothing was built of ${id}`);
				return { code: `export default ${JSON.stringify(chunk.code)};`, map: null };
			},
		},
	};
}
