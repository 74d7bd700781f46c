/** Units at the first look: below, hardly any verdict can be decided. */
const firstLook = 100;
/** Each look has a quarter more units than the one before: at most a quarter is simulated in vain, few looks are waited for. */
const usualGrowth = 1.25;

/** Numbers of units, rising, after which a study that may stop is looked at; the last is its ceiling. */
export function looks(ceiling: number, first = firstLook, growth = usualGrowth): number[] {
	const numbers: number[] = [];
	for (let units = first; units < ceiling; units = Math.ceil(units * growth)) numbers.push(units);
	return [...numbers, ceiling];
}

/** The same where many runs may each end by themselves: fewer, since at each of them workers wait for the last drive. */
export const looksOfRuns = (ceiling: number): number[] => looks(ceiling, firstLook, 2);

/** The first of those numbers, in words. */
export const looksWords = `${looksOfRuns(10 * firstLook)
	.slice(0, -1)
	.join(', ')} …`;
