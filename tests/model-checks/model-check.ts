/**
 * Where an expected figure comes from: printed somewhere, worked out by hand
 * from the equations, or found by other code than the engine's.
 */
export const checkKinds = ['published', 'closed form', 'independent computation'] as const;
export type CheckKind = (typeof checkKinds)[number];

/** One figure that the engine must give, known from outside it. */
export interface ModelCheck {
	readonly kind: CheckKind;
	/** What the figure is, with its inputs. */
	readonly what: string;
	/** Where the expected figure comes from; `recomputed` where it was also found anew with other means. */
	readonly source: string;
	/** '' for a plain number. */
	readonly unit: string;
	readonly expected: number;
	/** Largest difference allowed: what the source's digits, or the other method, leave open. */
	readonly tolerance: number;
	readonly got: () => number;
}

export interface CheckOutcome {
	readonly check: ModelCheck;
	readonly got: number;
	/** Got less expected. */
	readonly difference: number;
	readonly holds: boolean;
}

export function outcomeOf(check: ModelCheck): CheckOutcome {
	const got = check.got();
	const difference = got - check.expected;
	return { check, got, difference, holds: Math.abs(difference) <= check.tolerance };
}

type Ground = Pick<ModelCheck, 'kind' | 'source'> & { readonly unit?: string };

/** Checks of one ground, each with what it is, the expected figure, the tolerance, and the engine's figure. */
export const checksOf = (
	{ kind, source, unit = '' }: Ground,
	rows: readonly (readonly [what: string, expected: number, tolerance: number, got: () => number])[],
): ModelCheck[] =>
	rows.map(([what, expected, tolerance, got]) => ({ kind, source, unit, what, expected, tolerance, got }));

/** The same for intervals: two checks each. */
export const limitChecks = (
	ground: Ground,
	tolerance: number,
	rows: readonly (readonly [
		what: string,
		low: number,
		high: number,
		got: () => { readonly low: number; readonly high: number },
	])[],
): ModelCheck[] =>
	checksOf(
		ground,
		rows.flatMap(([what, low, high, got]) => [
			[`${what}, lower`, low, tolerance, () => got().low],
			[`${what}, upper`, high, tolerance, () => got().high],
		]),
	);
