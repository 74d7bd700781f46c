import { AcceptanceChain } from '../drive/sensing/acceptance-chain.ts';
import type { KeptReadings } from '../drive/sensing/kept-readings.ts';
import { Acceptances, type CommutationRule } from './acceptances.ts';

/** What a filter makes of a run's kept readings, summed over its sectors. */
export interface ReadingSums {
	/** Probabilities of an early false, a late and a missed crossing. */
	early: number;
	late: number;
	missed: number;
	/** Probability that a crossing is accepted, and its product with the time of acceptance after the one of no error (s). */
	accepted: number;
	lateness: number;
	/** Sectors whose commutation is to be expected within the angle limit. */
	within: number;
}

interface Judged {
	readonly votes: number;
	readonly window: number;
	/** V */
	readonly sigma: number;
	/** Seconds by which the firmware's compensation is longer than that of the run. */
	readonly laterBy: number;
	/** Crossing error beyond which a crossing is early false or late, s. */
	readonly margin: number;
	readonly rule: CommutationRule;
}

const chain = new AcceptanceChain();
const acceptances = new Acceptances();

/** The exact chances of a run's sectors under another filter, noise and compensation, on the waveform that the run had. */
export function judgeReadings(
	kept: KeptReadings,
	{ votes, window, sigma, laterBy, margin, rule }: Judged,
): ReadingSums {
	const { times, ups, stays, sectors } = kept;
	const sums: ReadingSums = { early: 0, late: 0, missed: 0, accepted: 0, lateness: 0, within: 0 };
	chain.load(window, votes);
	chain.sigma = sigma;
	acceptances.clear(kept.count);
	for (let s = 0; s < sectors.length; s++) {
		const { exact, placement, rising, from } = sectors[s] as KeptReadings['sectors'][0];
		const end = sectors[s + 1]?.from ?? kept.count;
		const ideal = exact + laterBy;
		chain.open();
		acceptances.openSector();
		for (let i = from; i < end && chain.undecided; i++) {
			const time = times[i] as number;
			chain.up = ups[i] as number;
			chain.stay = stays[i] as number;
			const before = chain.waiting;
			chain.weigh(rising);
			chain.step(time < ideal - margin ? -1 : time > ideal + margin ? 1 : 0);
			const accepted = before - chain.waiting;
			sums.accepted += accepted;
			sums.lateness += accepted * (time - ideal);
			acceptances.add(time - ideal + placement, accepted);
		}
		sums.early += chain.early;
		sums.late += chain.late;
		sums.missed += chain.missed;
	}
	sums.within = acceptances.within(rule);
	return sums;
}
