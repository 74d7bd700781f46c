import { choiceNames } from '../../../shared/drive/drive.ts';
import { linesOf } from '../../../shared/words/lines-of.ts';
import { choiceWords } from '../../../shared/words/names.ts';

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

/** What stands above and below a picture of both choices, since a file comes without its page. */
export interface PictureWords {
	readonly caption: string;
	readonly source: string;
	/** Whether a baseline is drawn in grey. */
	readonly hasGhost: boolean;
}

interface StandaloneSvg {
	readonly text: string;
	readonly width: number;
	readonly height: number;
	/** The page's ground. */
	readonly paper: string;
}

/**
 * A drawing on the page as a file of its own: what the stylesheet gave it written into it, patterns included.
 *
 * @param words set around it, with the key of the choices
 */
export function standaloneSvg(svg: SVGSVGElement, words?: PictureWords): StandaloneSvg {
	const { width, height } = svg.getBoundingClientRect();
	const copy = svg.cloneNode(true) as SVGSVGElement;
	writeStyles(svg, copy);
	copy.setAttribute('xmlns', 'http://www.w3.org/2000/svg');
	copy.setAttribute('width', String(width));
	copy.setAttribute('height', String(height));
	copy.removeAttribute('aria-hidden');
	const paper = getComputedStyle(document.body).backgroundColor;
	const { drawing, whole } = words ? framed(copy, { width, height }, words) : { drawing: copy, whole: height };
	drawing.prepend(element('rect', { width: '100%', height: '100%', fill: paper }), ...patternsOf(drawing));
	return { text: `${new XMLSerializer().serializeToString(drawing)}\n`, width, height: whole, paper };
}

const namespace = 'http://www.w3.org/2000/svg';

function element(name: string, attributes: Readonly<Record<string, string | number>>, text = ''): SVGElement {
	const made = document.createElementNS(namespace, name);
	for (const [key, value] of Object.entries(attributes)) made.setAttribute(key, String(value));
	made.textContent = text;
	return made;
}

/** Type of caption, key and source, CSS pixels; letters of it are about half as wide. */
const size = 13;
const lineHeight = 18;

/** The picture below its caption and the key of the choices, above its source. */
function framed(
	picture: SVGSVGElement,
	{ width, height }: { readonly width: number; readonly height: number },
	{ caption, source, hasGhost }: PictureWords,
) {
	const page = getComputedStyle(document.body);
	const colour = (name: string): string => page.getPropertyValue(name).trim();
	const written = (lines: readonly string[], top: number, fill: string): SVGElement[] =>
		lines.map((line, i) =>
			element('text', { x: 8, y: top + i * lineHeight, 'font-size': size, 'font-family': page.fontFamily, fill }, line),
		);
	const longest = Math.floor((width - 16) / (0.54 * size));
	const above = linesOf(caption, longest);
	const below = linesOf(source, longest);
	const keyAt = 20 + above.length * lineHeight;
	const head = keyAt + 14;
	const whole = head + height + below.length * lineHeight + 8;
	picture.setAttribute('y', String(head));
	const drawing = element('svg', { width, height: whole, viewBox: `0 0 ${width} ${whole}` });
	const choices = [...document.querySelectorAll<SVGSVGElement>('.key .choice-mark')].slice(0, choiceNames.length);
	let x = 8;
	const key = choiceNames.flatMap((choice, i) => {
		const mark = choices[i]?.cloneNode(true) as SVGSVGElement | undefined;
		if (mark && choices[i]) writeStyles(choices[i] as Element, mark);
		mark?.setAttribute('x', String(x));
		mark?.setAttribute('y', String(keyAt - 12));
		const [name] = written([choiceWords[choice]], keyAt, colour('--ink'));
		name?.setAttribute('x', String(x + 42));
		x += 42 + choiceWords[choice].length * 0.56 * size + 24;
		return [mark, name].filter((one) => one !== undefined);
	});
	if (hasGhost) {
		const [name] = written(['grey: the baseline'], keyAt, colour('--quiet'));
		name?.setAttribute('x', String(x));
		if (name) key.push(name);
	}
	drawing.append(
		...written(above, 20, colour('--ink')),
		...key,
		picture,
		...written(below, head + height + lineHeight - 4, colour('--quiet')),
	);
	return { drawing, whole };
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
function patternsOf(copy: SVGElement): Element[] {
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
