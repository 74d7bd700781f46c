/** Properties that a drawing takes from the stylesheet. */
const drawn = [
	'fill',
	'fill-opacity',
	'stroke',
	'stroke-width',
	'stroke-dasharray',
	'stroke-opacity',
	'stroke-linecap',
	'stroke-linejoin',
	'opacity',
	'font-family',
	'font-size',
	'font-weight',
	'letter-spacing',
	'text-anchor',
	'dominant-baseline',
	'vector-effect',
	'paint-order',
] as const;

interface StandaloneSvg {
	readonly text: string;
	readonly width: number;
	readonly height: number;
	/** The page's ground. */
	readonly paper: string;
}

/** A drawing on the page as a file of its own: what the stylesheet gave it written into it, patterns included. */
export function standaloneSvg(svg: SVGSVGElement): StandaloneSvg {
	const { width, height } = svg.getBoundingClientRect();
	const copy = svg.cloneNode(true) as SVGSVGElement;
	writeStyles(svg, copy);
	copy.setAttribute('xmlns', 'http://www.w3.org/2000/svg');
	copy.setAttribute('width', String(width));
	copy.setAttribute('height', String(height));
	copy.removeAttribute('aria-hidden');
	const paper = getComputedStyle(document.body).backgroundColor;
	const ground = document.createElementNS('http://www.w3.org/2000/svg', 'rect');
	ground.setAttribute('width', '100%');
	ground.setAttribute('height', '100%');
	ground.setAttribute('fill', paper);
	copy.prepend(ground, ...patternsOf(copy));
	return { text: `${new XMLSerializer().serializeToString(copy)}\n`, width, height, paper };
}

function writeStyles(from: Element, to: Element): void {
	const style = getComputedStyle(from);
	for (const name of drawn) {
		const value = style.getPropertyValue(name);
		// the page's own address is no part of a reference to a pattern
		if (value !== '') to.setAttribute(name, value.replace(/url\("[^"#]*#/g, 'url("#').replaceAll('"', "'"));
	}
	to.removeAttribute('class');
	for (let i = 0; i < from.children.length; i += 1) {
		const [child, other] = [from.children[i], to.children[i]];
		if (child && other) writeStyles(child, other);
	}
}

/** Patterns that it fills with and that stand elsewhere on the page. */
function patternsOf(copy: SVGSVGElement): Element[] {
	const wanted = new Set<string>();
	for (const element of copy.querySelectorAll('[fill^="url"]')) {
		const name = element.getAttribute('fill')?.match(/#([\w-]+)/)?.[1];
		if (name) wanted.add(name);
	}
	return [...wanted].flatMap((name) => {
		const pattern = copy.querySelector(`#${name}`) ? null : document.getElementById(name);
		if (!pattern) return [];
		const own = pattern.cloneNode(true) as Element;
		writeStyles(pattern, own);
		own.removeAttribute('fill');
		const defs = document.createElementNS('http://www.w3.org/2000/svg', 'defs');
		defs.append(own);
		return [defs];
	});
}
