/** What two records that should be the same have in common, down to the last digit. */
export interface Comparison {
	/** Numbers that were compared. */
	readonly figures: number;
	readonly differences: readonly Difference[];
}

export interface Difference {
	/** Dotted, with places of lists in brackets: `points[1].choices.halfBus.lost`. */
	readonly path: string;
	/** As JSON would have them; what is not there is "nothing". */
	readonly before: string;
	readonly now: string;
}

/** Compares two plain values, every number to its last bit. NaN and null, which JSON does not tell apart, are the same. */
export function compareFigures(before: unknown, now: unknown): Comparison {
	const differences: Difference[] = [];
	let figures = 0;
	const compare = (one: unknown, other: unknown, path: string): void => {
		if (isCompound(one) && isCompound(other) && Array.isArray(one) === Array.isArray(other)) {
			const [mine, theirs] = [one as Readonly<Record<string, unknown>>, other as Readonly<Record<string, unknown>>];
			for (const name of new Set([...Object.keys(mine), ...Object.keys(theirs)])) {
				compare(
					mine[name],
					theirs[name],
					Array.isArray(one) ? `${path}[${name}]` : path === '' ? name : `${path}.${name}`,
				);
			}
			return;
		}
		if (typeof one === 'number' || typeof other === 'number') figures += 1;
		if (!Object.is(plain(one), plain(other))) differences.push({ path, before: said(one), now: said(other) });
	};
	compare(before, now, '');
	return { figures, differences };
}

const isCompound = (value: unknown): boolean => typeof value === 'object' && value !== null;

const plain = (value: unknown): unknown => (value === undefined || Number.isNaN(value) ? null : value);

const said = (value: unknown): string =>
	typeof value === 'number' ? String(value) : value === undefined ? 'nothing' : JSON.stringify(value);
