/** An element of a printed document's structure, with all that it holds. */
export interface Printed {
	/** Role of ISO 32000-1, 14.8.4: H2, TR, P, Figure … */
	readonly role: string;
	/** Numbers of the pages that its contents lie on, counted from 0, in reading order. */
	readonly pages: readonly number[];
	readonly kids: readonly Printed[];
}

/**
 * The structure of a tagged PDF (ISO 32000-1, 14.7) as the browser writes it: its objects lie in
 * the file as plain text, one after another.
 */
export function printedStructure(pdf: Buffer): Printed {
	const objects = new Map<string, string>();
	for (const [, number = '', body = ''] of pdf.toString('latin1').matchAll(/(?<=\n)(\d+) 0 obj\n([\s\S]*?)\nendobj/g)) {
		objects.set(number, body);
	}
	const root = (type: string): string => [...objects.values()].find((body) => body.includes(`/Type /${type}\n`)) ?? '';
	const pageNumbers = new Map(pagesIn(refsOf(root('Catalog'), 'Pages')[0] ?? '', objects).map((page, i) => [page, i]));
	const read = (number: string): Printed => {
		const body = objects.get(number) ?? '';
		const [own = ''] = refsOf(body, 'Pg');
		const pages: number[] = [];
		const kids: Printed[] = [];
		const pageOf = (page: string): number => pageNumbers.get(page) ?? Number.NaN;
		for (const kid of body.match(/\/K (\[[^\]]*\]|\d+ 0 R|\d+)/)?.[1]?.match(/<<[^>]*>>|\d+ 0 R|\d+/g) ?? []) {
			if (kid.endsWith('R')) {
				const inner = read(kid.split(' ')[0] as string);
				kids.push(inner);
				pages.push(...inner.pages);
			} else if (!kid.includes('/OBJR')) pages.push(pageOf(refsOf(kid, 'Pg')[0] ?? own));
		}
		return { role: body.match(/\/S \/(\w+)/)?.[1] ?? '', pages, kids };
	};
	return read(refsOf(root('StructTreeRoot'), 'K')[0] ?? '');
}

/** All elements within one, in reading order. */
export function* elementsOf(element: Printed): Generator<Printed> {
	for (const kid of element.kids) {
		yield kid;
		yield* elementsOf(kid);
	}
}

/** Numbers of the objects that an entry refers to. */
const refsOf = (body: string, entry: string): readonly string[] =>
	[...(body.match(new RegExp(`/${entry} (\\[[^\\]]*\\]|\\d+ 0 R)`))?.[1] ?? '').matchAll(/(\d+) 0 R/g)].map(
		([, number = '']) => number,
	);

function pagesIn(number: string, objects: ReadonlyMap<string, string>): readonly string[] {
	const kids = refsOf(objects.get(number) ?? '', 'Kids');
	return kids.length === 0 ? [number] : kids.flatMap((kid) => pagesIn(kid, objects));
}
