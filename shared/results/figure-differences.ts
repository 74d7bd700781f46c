/** A figure of a result, by its place in the file: `points[0].choices.halfBus.unitError.q95`. */
export interface FigureDifference {
	readonly path: string;
	readonly first: Figure;
	readonly second: Figure;
}

export interface FigureComparison {
	/** Figures held side by side. */
	readonly figures: number;
	readonly differences: readonly FigureDifference[];
}

/** Undefined where one of the results has no such figure. */
export type Figure = number | string | boolean | null | undefined;

/** Sentences repeat figures, version and digests differ where anything does, a worker is lost in one run alone: none is a figure. */
const apart = new Set([
	'format',
	'formatVersion',
	'sentence',
	'version',
	'resultDigest',
	'scenarioDigest',
	'methods',
	'lostWorkers',
]);

/** Every figure of two results of any command, to the last bit; of results in different format versions, those that both have. */
export function figureDifferences(first: object, second: object): FigureComparison {
	const [one, other] = [figuresOf(first), figuresOf(second)];
	const [version, otherVersion] = [first, second].map(
		(result) => (result as { formatVersion?: unknown }).formatVersion,
	);
	const paths =
		version === otherVersion
			? new Set([...one.keys(), ...other.keys()])
			: new Set([...one.keys()].filter((path) => other.has(path)));
	return {
		figures: paths.size,
		differences: [...paths]
			.filter((path) => !Object.is(one.get(path), other.get(path)))
			.map((path) => ({ path, first: one.get(path), second: other.get(path) })),
	};
}

function figuresOf(result: object): Map<string, Figure> {
	const figures = new Map<string, Figure>();
	const walk = (value: unknown, path: string): void => {
		if (typeof value !== 'object' || value === null) figures.set(path, value as Figure);
		else if (Array.isArray(value)) for (const [i, item] of value.entries()) walk(item, `${path}[${i}]`);
		else
			for (const [name, member] of Object.entries(value)) {
				if (!apart.has(name)) walk(member, path === '' ? name : `${path}.${name}`);
			}
	};
	walk(result, '');
	return figures;
}
