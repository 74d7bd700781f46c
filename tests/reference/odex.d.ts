/** What is used of odex 2.0: it ships TypeScript source that a strict project cannot take in as it is. */

type Derivative = (x: number, y: number[]) => number[];

/** Called after every accepted step; `dense(component, x)` interpolates in it. False ends the integration. */
type OutputFunction = (
	step: number,
	from: number,
	to: number,
	y: number[],
	dense?: (component: number, x: number) => number,
) => boolean | undefined;

export declare class Solver {
	constructor(n: number);
	absoluteTolerance: number | number[];
	relativeTolerance: number | number[];
	initialStepSize: number;
	maxSteps: number;
	maxExtrapolationColumns: number;
	denseOutput: boolean;
	denseComponents: number[] | undefined;
	solve(
		f: Derivative,
		x: number,
		y: number[],
		end: number,
		output?: OutputFunction,
	): { readonly y: number[]; readonly outcome: number; readonly nEval: number; readonly nStep: number };
}

export declare const Outcome: {
	readonly Converged: number;
	readonly MaxStepsExceeded: number;
	readonly EarlyReturn: number;
};
