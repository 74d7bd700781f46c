import { count, drives } from '../words/figures.ts';
import type { VariantFigures } from './variant-figures.ts';

/**
 * How many drives the verdicts of variants rest on, those that could not be
 * simulated among them: as many as were asked for, those that ended early
 * included, or fewer where the work was cut short.
 *
 * @param asked of each variant
 */
export function judgedUnits(variants: readonly Pick<VariantFigures, 'units'>[], asked: number) {
	const judged = variants.map(({ units }) => {
		const done = units.finished + units.failed;
		// one that ended early, since no more could change its verdict, counts as whole
		return done >= units.asked ? asked : Math.min(asked, done);
	});
	const [least, most] = [Math.min(...judged), Math.max(...judged)];
	return {
		isCut: least < asked,
		/** Of a variant that was begun. */
		fewest: Math.min(...judged.filter((units) => units > 0)),
		words:
			least === asked
				? drives(asked)
				: `${least === most ? count(least) : `${count(least)} to ${count(most)}`} of the ${drives(asked)} asked for`,
	};
}
