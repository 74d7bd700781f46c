import type { Drive } from '../drive/drive.ts';

/** How a crossing becomes a commutation, and how far off that may lie; times in seconds. */
export interface CommutationRule {
	/** Largest angle error that is allowed, either way. */
	readonly limit: number;
	/** Intervals between crossings that the firmware averages, and the share of their mean from a crossing to its commutation. */
	readonly averaged: number;
	readonly share: number;
	/** Error of a commutation at once, of a crossing acted on without error: compensated delay less the ideal wait. */
	readonly atOnce: number;
}

/**
 * The rule of a drive whose firmware takes off so many seconds of delay.
 *
 * @param angleLimit degrees
 */
export function commutationRule(
	{ motor, operation, detection }: Drive,
	compensation: number,
	angleLimit: number,
): CommutationRule {
	const degreesPerSecond = 6 * motor.polePairs * operation.speed;
	const wait = 30 - detection.advance;
	return {
		limit: angleLimit / degreesPerSecond,
		averaged: detection.intervalsAveraged,
		share: wait / 60,
		atOnce: compensation - wait / degreesPerSecond,
	};
}

/** Chances below this are not looked at: a whole run's sum is below a billionth. */
const negligible = 1e-15;

/**
 * When the crossings of one run's sectors are accepted, by the chances that an
 * acceptance chain gives: sector by sector a list of times after the one of no
 * error on the ideal grid (60° apart, placement of windings not followed).
 */
export class Acceptances {
	/** Of all sectors in a row, times rising in each: s, and probabilities up to and with each. */
	private times = new Float64Array(0);
	private upTo = new Float64Array(0);
	private count = 0;
	/** Place of each sector's first acceptance. */
	private readonly firsts: number[] = [];

	/** Empties it, with room for so many acceptances. */
	clear(room: number): void {
		this.count = 0;
		this.firsts.length = 0;
		if (room <= this.times.length) return;
		this.times = new Float64Array(room);
		this.upTo = new Float64Array(room);
	}

	openSector(): void {
		this.firsts.push(this.count);
	}

	add(time: number, probability: number): void {
		if (!(probability > negligible)) return;
		const before = this.count > (this.firsts.at(-1) as number) ? (this.upTo[this.count - 1] as number) : 0;
		this.times[this.count] = time;
		this.upTo[this.count] = before + probability;
		this.count++;
	}

	/**
	 * Sectors whose commutation is to be expected within the limit. With the crossing error c of a sector and b of the
	 * one as many sectors before as intervals are averaged, its commutation is off by
	 *
	 *   c + max(atOnce, (c − b)·share/averaged),
	 *
	 * and c and b are independent given the noise-free inputs. Where b lies before the first sector kept, that of the
	 * next sector of its kind stands in for it; where that crossing is never accepted, intervals are taken for ideal. A
	 * missed crossing keeps no limit, late as its commutation is.
	 */
	within({ limit, averaged, share, atOnce }: CommutationRule): number {
		const weight = share / averaged;
		let sum = 0;
		for (let sector = 0; sector < this.firsts.length; sector++) {
			const before = this.sectorBefore(sector, averaged);
			const sure = this.mass(before);
			const { from, to } = this.range(sector);
			for (let i = from; i < to; i++) {
				const c = this.times[i] as number;
				if (c + atOnce > limit) break; // the later ones all the more
				const probability = (this.upTo[i] as number) - (i > from ? (this.upTo[i - 1] as number) : 0);
				// c − b at most so large, and at least so large unless it commutates at once within the limit
				const most = limit - c;
				const least = c + atOnce >= -limit ? Number.NEGATIVE_INFINITY : -limit - c;
				if (weight === 0 || !(sure > negligible)) {
					if (0 <= most && 0 >= least) sum += probability;
					continue;
				}
				const enough = this.before(before, c - least / weight) - this.before(before, c - most / weight);
				sum += (probability * Math.max(0, enough)) / sure;
			}
		}
		return sum;
	}

	/** The sector whose crossing the averaged intervals of `sector` begin with, or one of its kind. */
	private sectorBefore(sector: number, averaged: number): number {
		let before = sector - averaged;
		while (before < 0) before += 6;
		return before < this.firsts.length ? before : sector;
	}

	private range(sector: number): { readonly from: number; readonly to: number } {
		return { from: this.firsts[sector] as number, to: this.firsts[sector + 1] ?? this.count };
	}

	/** Probability that the sector's crossing is accepted at all. */
	private mass(sector: number): number {
		const { from, to } = this.range(sector);
		return to > from ? (this.upTo[to - 1] as number) : 0;
	}

	/** Probability that it is accepted before `time` (s). */
	private before(sector: number, time: number): number {
		const { from, to } = this.range(sector);
		let last = from;
		while (last < to && (this.times[last] as number) < time) last++;
		return last > from ? (this.upTo[last - 1] as number) : 0;
	}
}
