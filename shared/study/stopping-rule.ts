import type { ChoiceName } from '../drive/drive.ts';
import type { DrawFigures } from '../statistics/adaptive-monte-carlo.ts';

/** What ends a study; its number of units is the ceiling that always holds. */
export type StoppingRule =
	| { readonly rule: 'number' }
	/** When the verdict of each of these choices is decided. */
	| { readonly rule: 'decided'; readonly choices: readonly ChoiceName[] }
	/** When the figures of the units' error stand still at so many digits; `batch`: units in a batch, JCGM 101's number if not given. */
	| { readonly rule: 'settled'; readonly digits: number; readonly batch?: number };

export type StoppingOutcome =
	| { readonly rule: 'number' }
	| {
			readonly rule: 'decided';
			readonly ceiling: number;
			readonly choices: readonly ChoiceName[];
			/** Numbers of units after which it was looked at. */
			readonly looks: readonly number[];
			/** False where the ceiling, or an interruption, came first. */
			readonly reached: boolean;
	  }
	| {
			readonly rule: 'settled';
			readonly ceiling: number;
			readonly digits: number;
			readonly batch: number;
			readonly figures: readonly SettledFigure[];
			readonly reached: boolean;
	  };

/** One choice's 95 % figure of |error| over units at one point: mean, standard deviation, limits of the symmetric 95 % interval. */
export interface SettledFigure {
	readonly point: number;
	readonly choice: ChoiceName;
	/** δ, degrees, and the standard errors over batches, twice of which must stay below it. */
	readonly tolerance: number;
	readonly errors: DrawFigures | null;
	readonly settled: boolean;
	/** True where units lost lock: a mean that does not exist cannot settle, and is not waited for. */
	readonly lost: boolean;
}
