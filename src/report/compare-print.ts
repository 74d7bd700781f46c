import type { CarriedProgram } from '../../shared/report/carried.ts';
import type { Report } from '../../shared/report/report.ts';
import { reportPage } from '../../shared/report/report-page.ts';

/**
 * Makes the page again from what was computed again and holds it against the
 * page as it is shown: headings of the parts that are not the same, sign by
 * sign. Charts are left out; the tables have their figures.
 */
export async function comparePrint(
	report: Report,
	program: CarriedProgram,
	shown: Document,
): Promise<readonly string[]> {
	const made = await reportPage(report, async () => '', program);
	return differingParts(shown, new DOMParser().parseFromString(made, 'text/html'));
}

/** Headings of the parts in which two report pages differ, charts left out. */
export function differingParts(one: Document, other: Document): readonly string[] {
	const [first, second] = [partsOf(one), partsOf(other)];
	return [...new Set([...first.keys(), ...second.keys()])].filter((title) => first.get(title) !== second.get(title));
}

/** The page's parts by their headings. */
function partsOf(document: Document): ReadonlyMap<string, string> {
	const page = document.documentElement.cloneNode(true) as HTMLElement;
	for (const element of page.querySelectorAll('script, .pictures svg, #again')) element.remove();
	// the style too, which could hide what is there
	const parts = [...page.querySelectorAll('title, style, header, nav, main > section')];
	return new Map(
		parts.map((part) => [part.querySelector('h1, h2')?.textContent ?? part.nodeName.toLowerCase(), part.innerHTML]),
	);
}
