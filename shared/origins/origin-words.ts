import { signedDegrees } from '../words/figures.ts';
import type { ChoiceOrigins, GroupShare } from './origins-result.ts';

/** What the shares of the spread are called in every table. */

/** Half a per cent of the variance, below which a whole per cent would say 0. */
const slight = 0.005;
export const isSlight = ({ first, total }: GroupShare): boolean => first.high < slight && total.high < slight;

/** A group's name where no sentence needs its article. */
export const bareName = (name: string): string => name.replace(/^the /, '');

/**
 * Each sector kind against all six together: their mean is no error of the drive,
 * since crossings here do not wait for readings and votes, which the compensated
 * delay makes up for.
 */
export function kindsOffTheSix({ kinds, groups }: ChoiceOrigins) {
	const ofAll = kinds.reduce((sum, { mean }) => sum + mean, 0) / kinds.length;
	return {
		ofAll,
		words: `Off the six: the mean error against that of all six together, ${signedDegrees(ofAll)}. That one is no error of the drive: crossings here do not wait for readings and votes, and the compensated delay makes up for that wait.`,
		rows: kinds.map(({ mean, sd }, kind) => ({ off: mean - ofAll, sd, most: mostOf(groups, kind) })),
	};
}

/** The group that alone makes the largest part of a sector kind's spread; '' where there is none. */
function mostOf(groups: readonly GroupShare[], kind: number): string {
	const [most] = [...groups].sort((one, other) => (other.kinds.first[kind] ?? 0) - (one.kinds.first[kind] ?? 0));
	return bareName(most?.name ?? '');
}
