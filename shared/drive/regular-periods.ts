import { decay } from '../maths/decay.ts';
import { smallCosine, smallSine } from '../maths/small-angle.ts';
import type { BackEmf } from './back-emf.ts';
import type { Circuit } from './circuit.ts';
import { highPhase, lowPhase, openPhase } from './commutation-table.ts';
import { type ConductionMode, highDiode, lowDiode, modeCode, modeCodes, open, type Tie } from './conduction-mode.ts';
import * as segment from './segment-fields.ts';
import type { SegmentHistory } from './segment-history.ts';

/** Parts of a PWM period at the most: on, dead, low switch closed, dead. */
const mostParts = 4;
/** Lanes kept for one sector and duty; more ways to conduct than this are left to the careful way. */
const mostLanes = 24;

/** What is needed of the power stage. */
interface Stage {
	readonly circuit: Circuit;
	readonly emf: BackEmf;
	readonly history: SegmentHistory;
	readonly kind: number;
	readonly duty: number;
	readonly periodIndex: number;
	readonly carrierPhase: number;
	readonly zRe: number;
	readonly zIm: number;
	readonly ringTime: number;
	readonly ringPeriod: number;
	readonly ringEdge: number;
	readonly ringKind: number;
	current(phase: number): number;
	partLengths(lengths: Float64Array): number;
	tieOfHighIn(part: number): Tie;
	tieOfLowIn(part: number): Tie;
	land(periods: number, iHigh: number, iLow: number, iOpen: number, zRe: number, zIm: number, work: number): void;
}

// Numbers of one lane: one conduction mode in one part of the period.
const modals = 0; // modal currents: 0, 1 or 2
const neutral = 1; // v_n: constant, weights of the open phase's EMF, of the ripple and of the first modal current
const neutralEmf = 2;
const neutralRipple = 3;
const neutralModal = 4;
const lowRail = 5; // v_low's weight of the first modal current
const modal0 = 6; // from here the numbers of the first modal current, from `modalStride` on those of the second
const modalStride = 18;
const laneStride = modal0 + 2 * modalStride;
// of a modal current
const fromHigh = 0; // y = Σ from·i
const fromLow = 1;
const fromOpen = 2;
const toHigh = 3; // i = Σ to·y
const toLow = 4;
const toOpen = 5;
const rate = 6;
const full = 7; // e^{−λ·(length of the part)}
const constant = 8; // A = constant + perEmf·e_z
const perEmf = 9;
const slope = 10; // B
const gainRe = 11;
const gainIm = 12;
const drive = 13; // of rails and flats alone
const rippleDrive = 14;
const level = 15; // ε = level + toOpen·e_z
const tilt = 16; // ε' = toOpen·(slope of e_z)
const inverseRate = 17;

/**
 * The stretch that makes up most of every run, done in one loop: whole PWM
 * periods in which the driven phases stand on the flats of a trapezoid and no
 * diode starts but at a gate edge (they may stop anywhere). What such a period
 * needs is worked out once a sector and duty; numbers stay in locals.
 *
 * It computes what PowerStage.trace and .commit compute, and stops in front of
 * any period that is not of this kind; those remain the readable reference
 * that it is tested against.
 */
export class RegularPeriods {
	private readonly stage: Stage;
	private readonly lanes = new Float64Array(mostLanes * laneStride);
	private readonly laneModes: ConductionMode[] = new Array<ConductionMode>(mostLanes);
	/** Lane of part and mode, −1 where not yet worked out. */
	private readonly laneIndex = new Int16Array(mostParts * modeCodes);
	private laneCount = 0;
	private readonly lengths = new Float64Array(mostParts);
	private readonly starts = new Float64Array(mostParts);
	private readonly turnsRe = new Float64Array(mostParts);
	private readonly turnsIm = new Float64Array(mostParts);
	/** Ties of + and − phase by their switches in each part; `open` where both are off. */
	private readonly highTies = new Int8Array(mostParts);
	private readonly lowTies = new Int8Array(mostParts);
	private parts = 0;
	/** What all this holds for. */
	private kind = -1;
	private duty = -1;
	private pieces = -1;

	constructor(stage: Stage) {
		this.stage = stage;
	}

	/** The drive has changed. */
	reset(): void {
		this.kind = -1;
	}

	/**
	 * Runs up to `most` whole periods from the present one's start, all at the
	 * present duty and before the next corner.
	 * @param keep whether the segments go into the history
	 * @returns periods done; 0 where the first one is not regular
	 */
	run(most: number, keep: boolean): number {
		const { stage, lanes, lengths, starts, turnsRe, turnsIm, highTies, lowTies } = this;
		const { circuit, emf, history, periodIndex, carrierPhase } = stage;
		if (stage.kind !== this.kind || stage.duty !== this.duty || emf.pieces !== this.pieces) this.prepare();
		const { parts } = this;
		if (parts === 0) return 0;
		const { period, diodeDrop } = circuit;
		const amplitude = circuit.rippleAmplitude;
		const omega = circuit.rippleOmega;
		const inverseOmega = 1 / omega;
		const rippleTime = amplitude * inverseOmega;
		const top = circuit.voltage + diodeDrop;
		const high = highPhase[this.kind] as number;
		const low = lowPhase[this.kind] as number;
		const third = openPhase[this.kind] as number;
		const emfHigh = emf.level[high] as number;
		const emfLow = emf.level[low] as number;
		const emfZero = emf.zero[third] as number;
		const emfRate = emf.slope[third] as number;
		const emfLevel = emf.level[third] as number;

		let iHigh = stage.current(high);
		let iLow = stage.current(low);
		let iOpen = stage.current(third);
		let zRe = stage.zRe;
		let zIm = stage.zIm;
		let work = 0;
		let done = 0;

		for (; done < most; done++) {
			const startTime = (periodIndex + done - carrierPhase) * period;
			const countBefore = history.count;
			const iHighBefore = iHigh;
			const iLowBefore = iLow;
			const iOpenBefore = iOpen;
			const zReBefore = zRe;
			const zImBefore = zIm;
			let added = 0;
			let regular = true;

			for (let part = 0; part < parts && regular; part++) {
				const length = lengths[part] as number;
				let rest = length;
				let time = startTime + (starts[part] as number);
				let tieHigh = highTies[part] as number;
				let tieLow = lowTies[part] as number;
				let tieOpen = iOpen > 0 ? lowDiode : iOpen < 0 ? highDiode : open;
				if (tieHigh === open) tieHigh = iHigh > 0 ? lowDiode : iHigh < 0 ? highDiode : open;
				if (tieLow === open) tieLow = iLow > 0 ? lowDiode : iLow < 0 ? highDiode : open;
				let began = true; // diodes may start

				// most parts by far: the open terminal stays between the rails, one modal current from end to end
				if (tieOpen === open && tieHigh !== open && tieLow !== open) {
					const lane = this.lane(part, tieHigh, tieLow, open);
					if (lane < 0) {
						regular = false;
						break;
					}
					const p = lane + modal0;
					const emfOpen = emfLevel + emfRate * (time - emfZero);
					const constantStar = lanes[lane + neutral] as number;
					const rippleStar = (lanes[lane + neutralRipple] as number) * amplitude;
					const modalStar = lanes[lane + neutralModal] as number;
					const rail = lanes[lane + lowRail] as number;
					const y = (lanes[p + fromHigh] as number) * iHigh + (lanes[p + fromLow] as number) * iLow;
					const gRe = lanes[p + gainRe] as number;
					const gIm = lanes[p + gainIm] as number;
					const a = lanes[p + constant] as number;
					const d = y - a - gRe * zIm - gIm * zRe;
					const turnRe = turnsRe[part] as number;
					const turnIm = turnsIm[part] as number;
					const zReEnd = zRe * turnRe - zIm * turnIm;
					const zImEnd = zRe * turnIm + zIm * turnRe;
					const fade = lanes[p + full] as number;
					const yEnd = a + gRe * zImEnd + gIm * zReEnd + d * fade;
					const begins = emfOpen + constantStar + rippleStar * zIm + modalStar * y;
					const ends = emfOpen + emfRate * length + constantStar + rippleStar * zImEnd + modalStar * yEnd;
					const iEnd = (lanes[p + toHigh] as number) * yEnd;
					const flows = iEnd > 0 && iHigh > 0;
					if (
						(flows || (tieHigh < highDiode && tieLow < highDiode)) &&
						begins <= top + amplitude * zIm &&
						begins >= rail * y - diodeDrop &&
						ends <= top + amplitude * zImEnd - margin &&
						ends >= rail * yEnd - diodeDrop + margin
					) {
						added +=
							(lanes[p + level] as number) *
							((lanes[p + drive] as number) * length +
								(lanes[p + rippleDrive] as number) * rippleTime * (zRe - zReEnd) -
								(yEnd - y)) *
							(lanes[p + inverseRate] as number);
						if (keep) {
							const slot = history.open(this.laneModes[lane / laneStride] as ConductionMode, time);
							const v = history.values;
							v[slot + segment.a0] = a;
							v[slot + segment.b0] = 0;
							v[slot + segment.d0] = d;
							v[slot + segment.a1] = 0;
							v[slot + segment.b1] = 0;
							v[slot + segment.d1] = 0;
							v[slot + segment.decay0] = fade;
							v[slot + segment.decay1] = 0;
							this.note(time, length, zRe, zIm, part, periodIndex + done, startTime);
						}
						iHigh = iEnd;
						iLow = (lanes[p + toLow] as number) * yEnd;
						zRe = zReEnd;
						zIm = zImEnd;
						continue;
					}
				}

				while (rest > 0) {
					let lane = this.lane(part, tieHigh, tieLow, tieOpen);
					if (lane < 0) {
						regular = false;
						break;
					}
					const emfOpen = emfLevel + emfRate * (time - emfZero);
					let p = lane + modal0;
					let y0 =
						(lanes[p + fromHigh] as number) * iHigh +
						(lanes[p + fromLow] as number) * iLow +
						(lanes[p + fromOpen] as number) * iOpen;

					// open terminals must lie between the rails; at a part's start one may not, and its diode starts
					if (tieOpen === open || tieHigh === open || tieLow === open) {
						const ripple = amplitude * zIm;
						const star =
							(lanes[lane + neutral] as number) +
							(lanes[lane + neutralEmf] as number) * emfOpen +
							(lanes[lane + neutralRipple] as number) * ripple +
							(lanes[lane + neutralModal] as number) * y0;
						const ceiling = top + ripple + 1e-9;
						const floor = (lanes[lane + lowRail] as number) * y0 - diodeDrop - 1e-9;
						const outHigh = tieHigh === open && (star + emfHigh > ceiling || star + emfHigh < floor);
						const outLow = tieLow === open && (star + emfLow > ceiling || star + emfLow < floor);
						if (outHigh || outLow || (lanes[lane + modals] === 0 && tieHigh === open && tieLow === open)) {
							regular = false;
							break;
						}
						if (tieOpen === open && (star + emfOpen > ceiling || star + emfOpen < floor)) {
							if (!began) {
								regular = false;
								break;
							}
							tieOpen = star + emfOpen > ceiling ? highDiode : lowDiode;
							lane = this.lane(part, tieHigh, tieLow, tieOpen);
							if (lane < 0) {
								regular = false;
								break;
							}
							p = lane + modal0;
							y0 =
								(lanes[p + fromHigh] as number) * iHigh +
								(lanes[p + fromLow] as number) * iLow +
								(lanes[p + fromOpen] as number) * iOpen;
						}
					}
					began = false;

					const count = lanes[lane + modals] as number;
					let span = rest;
					let turnRe: number;
					let turnIm: number;
					if (span === length) {
						turnRe = turnsRe[part] as number;
						turnIm = turnsIm[part] as number;
					} else {
						turnRe = smallCosine(omega * span);
						turnIm = smallSine(omega * span);
					}
					let zReEnd = zRe * turnRe - zIm * turnIm;
					let zImEnd = zRe * turnIm + zIm * turnRe;
					let y0End = 0;
					let y1End = 0;
					let stopped = 0; // 1, 2, 3: the diode of the + − open phase stops at the segment's end

					if (count > 0) {
						const q = p + modalStride;
						const two = count > 1;
						const rate0 = lanes[p + rate] as number;
						const b0 = lanes[p + slope] as number;
						const a0 = (lanes[p + constant] as number) + (lanes[p + perEmf] as number) * emfOpen;
						const g0Re = lanes[p + gainRe] as number;
						const g0Im = lanes[p + gainIm] as number;
						const d0 = y0 - a0 - (g0Re * zIm + g0Im * zRe);
						let decay0 = span === length ? (lanes[p + full] as number) : decay(rate0 * span);
						y0End = a0 + b0 * span + g0Re * zImEnd + g0Im * zReEnd + d0 * decay0;
						let y1 = 0;
						let rate1 = 1;
						let b1 = 0;
						let a1 = 0;
						let g1Re = 0;
						let g1Im = 0;
						let d1 = 0;
						let decay1 = 0;
						if (two) {
							rate1 = lanes[q + rate] as number;
							b1 = lanes[q + slope] as number;
							a1 = (lanes[q + constant] as number) + (lanes[q + perEmf] as number) * emfOpen;
							g1Re = lanes[q + gainRe] as number;
							g1Im = lanes[q + gainIm] as number;
							y1 =
								(lanes[q + fromHigh] as number) * iHigh +
								(lanes[q + fromLow] as number) * iLow +
								(lanes[q + fromOpen] as number) * iOpen;
							d1 = y1 - a1 - (g1Re * zIm + g1Im * zRe);
							decay1 = span === length ? (lanes[q + full] as number) : decay(rate1 * span);
							y1End = a1 + b1 * span + g1Re * zImEnd + g1Im * zReEnd + d1 * decay1;
						}

						// whose diode stops? sign·(to0·y0 + to1·y1) is its current, kept from reversing
						let to0 = 0;
						let to1 = 0;
						let sign = 1;
						let begin = 0;
						if (tieOpen >= highDiode) {
							sign = tieOpen === lowDiode ? 1 : -1;
							to0 = lanes[p + toOpen] as number;
							to1 = lanes[q + toOpen] as number;
							if (sign * (to0 * y0End + to1 * y1End) <= 0) {
								stopped = 3;
								begin = sign * iOpen;
							}
						}
						if (tieHigh >= highDiode) {
							const way = tieHigh === lowDiode ? 1 : -1;
							const t0 = lanes[p + toHigh] as number;
							const t1 = lanes[q + toHigh] as number;
							if (way * (t0 * y0End + t1 * y1End) <= 0) {
								if (stopped !== 0 && two) {
									regular = false; // two within one stretch: which is first is for the careful way
									break;
								}
								stopped = 1;
								begin = way * iHigh;
								sign = way;
								to0 = t0;
								to1 = t1;
							}
						}
						if (tieLow >= highDiode) {
							const way = tieLow === lowDiode ? 1 : -1;
							const t0 = lanes[p + toLow] as number;
							const t1 = lanes[q + toLow] as number;
							if (way * (t0 * y0End + t1 * y1End) <= 0) {
								if (stopped !== 0 && two) {
									regular = false;
									break;
								}
								stopped = 2;
								begin = way * iLow;
								sign = way;
								to0 = t0;
								to1 = t1;
							}
						}
						if (stopped !== 0) {
							const end = sign * (to0 * y0End + to1 * y1End);
							const slope0 =
								sign *
								(to0 * (b0 + omega * (g0Re * zRe - g0Im * zIm) - rate0 * d0) +
									to1 * (b1 + omega * (g1Re * zRe - g1Im * zIm) - rate1 * d1));
							const slopeEnd =
								sign *
								(to0 * (b0 + omega * (g0Re * zReEnd - g0Im * zImEnd) - rate0 * d0 * decay0) +
									to1 * (b1 + omega * (g1Re * zReEnd - g1Im * zImEnd) - rate1 * d1 * decay1));
							if (!(begin > 1e-9 && slope0 < 0 && slopeEnd < 0)) {
								regular = false;
								break;
							}
							// time as a cubic in the current, then Newton
							const range = end - begin;
							const x = -begin / range;
							const y = 1 - x;
							let s = span * x * x * (3 - 2 * x) + (range / slope0) * x * y * y - (range / slopeEnd) * x * x * y;
							let settled = false;
							for (let tries = 0; tries < 20 && s >= 0 && s <= span; tries++) {
								decay0 = decay(rate0 * s);
								if (two) decay1 = decay(rate1 * s);
								turnRe = smallCosine(omega * s);
								turnIm = smallSine(omega * s);
								zReEnd = zRe * turnRe - zIm * turnIm;
								zImEnd = zRe * turnIm + zIm * turnRe;
								y0End = a0 + b0 * s + g0Re * zImEnd + g0Im * zReEnd + d0 * decay0;
								if (two) y1End = a1 + b1 * s + g1Re * zImEnd + g1Im * zReEnd + d1 * decay1;
								const value = sign * (to0 * y0End + to1 * y1End);
								const y0Rate = b0 + omega * (g0Re * zReEnd - g0Im * zImEnd) - rate0 * d0 * decay0;
								const y1Rate = b1 + omega * (g1Re * zReEnd - g1Im * zImEnd) - rate1 * d1 * decay1;
								const step = -value / (sign * (to0 * y0Rate + to1 * y1Rate));
								if (step < lastStep && step > -lastStep) {
									// the last step, to first order: what it leaves is below 10⁻¹⁸ of everything
									s += step;
									y0End += step * y0Rate;
									y1End += step * y1Rate;
									decay0 -= step * rate0 * decay0;
									decay1 -= step * rate1 * decay1;
									const turned = zReEnd - step * omega * zImEnd;
									zImEnd += step * omega * zReEnd;
									zReEnd = turned;
									settled = true;
									break;
								}
								s += step;
							}
							if (!settled) {
								regular = false;
								break;
							}
							span = s;
						}

						// ∫ Σ e i, as in PowerStage.addWork
						const ripple = rippleTime * (zRe - zReEnd);
						const time0 = lanes[p + inverseRate] as number;
						const tilt0 = lanes[p + tilt] as number;
						const lift0 = (lanes[p + toOpen] as number) * emfOpen;
						const f0 = (lanes[p + drive] as number) - lift0;
						const r0 = lanes[p + rippleDrive] as number;
						const half = 0.5 * span * span;
						const area0 = (f0 * span - tilt0 * half + r0 * ripple - (y0End - y0)) * time0;
						added += ((lanes[p + level] as number) + lift0) * area0;
						if (tilt0 !== 0 || two) {
							const cube = span * span * span * (1 / 3);
							const moment = rippleTime * ((zImEnd - zIm) * inverseOmega - span * zReEnd);
							added += tilt0 * (f0 * half - tilt0 * cube + r0 * moment - span * y0End + area0) * time0;
							if (two) {
								const time1 = lanes[q + inverseRate] as number;
								const tilt1 = lanes[q + tilt] as number;
								const lift1 = (lanes[q + toOpen] as number) * emfOpen;
								const f1 = (lanes[q + drive] as number) - lift1;
								const r1 = lanes[q + rippleDrive] as number;
								const area1 = (f1 * span - tilt1 * half + r1 * ripple - (y1End - y1)) * time1;
								added += ((lanes[q + level] as number) + lift1) * area1;
								added += tilt1 * (f1 * half - tilt1 * cube + r1 * moment - span * y1End + area1) * time1;
							}
						}
						if (keep && span > 0) {
							const slot = history.open(this.laneModes[lane / laneStride] as ConductionMode, time);
							const v = history.values;
							v[slot + segment.a0] = a0;
							v[slot + segment.b0] = b0;
							v[slot + segment.d0] = d0;
							v[slot + segment.a1] = a1;
							v[slot + segment.b1] = b1;
							v[slot + segment.d1] = d1;
							v[slot + segment.decay0] = decay0;
							v[slot + segment.decay1] = decay1;
						}
						iHigh = (lanes[p + toHigh] as number) * y0End + (lanes[q + toHigh] as number) * y1End;
						iLow = (lanes[p + toLow] as number) * y0End + (lanes[q + toLow] as number) * y1End;
						iOpen = (lanes[p + toOpen] as number) * y0End + (lanes[q + toOpen] as number) * y1End;
					} else if (keep) {
						const slot = history.open(this.laneModes[lane / laneStride] as ConductionMode, time);
						history.values.fill(0, slot + segment.a0, slot + segment.d1 + 1);
					}
					if (keep && span > 0) this.note(time, span, zRe, zIm, part, periodIndex + done, startTime);

					if (count < 2) {
						// an open terminal that ends near or beyond a rail is for the careful way
						const ripple = amplitude * zImEnd;
						const emfEnd = emfOpen + emfRate * span;
						const star =
							(lanes[lane + neutral] as number) +
							(lanes[lane + neutralEmf] as number) * emfEnd +
							(lanes[lane + neutralRipple] as number) * ripple +
							(lanes[lane + neutralModal] as number) * y0End;
						const ceiling = top + ripple - margin;
						const floor = (lanes[lane + lowRail] as number) * y0End - diodeDrop + margin;
						if (
							(tieOpen === open && (star + emfEnd > ceiling || star + emfEnd < floor)) ||
							(tieHigh === open && (star + emfHigh > ceiling || star + emfHigh < floor)) ||
							(tieLow === open && (star + emfLow > ceiling || star + emfLow < floor))
						) {
							regular = false;
							break;
						}
					}
					zRe = zReEnd;
					zIm = zImEnd;
					time += span;
					rest -= span;
					if (stopped === 0) break;
					// the current that has come to zero is put there exactly, the others made to add up
					if (count === 1) {
						iHigh = iLow = iOpen = 0;
						if (tieHigh >= highDiode) tieHigh = open;
						if (tieLow >= highDiode) tieLow = open;
						if (tieOpen >= highDiode) tieOpen = open;
					} else if (stopped === 3) {
						iOpen = 0;
						iLow = -iHigh;
						tieOpen = open;
					} else if (stopped === 1) {
						iHigh = 0;
						iLow = -iOpen;
						tieHigh = open;
					} else {
						iLow = 0;
						iHigh = -iOpen;
						tieLow = open;
					}
				}
			}

			if (!regular) {
				iHigh = iHighBefore;
				iLow = iLowBefore;
				iOpen = iOpenBefore;
				zRe = zReBefore;
				zIm = zImBefore;
				history.count = countBefore;
				break;
			}
			work += added;
		}

		if (done > 0) {
			if (!keep) history.forget();
			stage.land(done, iHigh, iLow, iOpen, zRe, zIm, work);
		}
		return done;
	}

	/** Offset of the lane for a part and three ties, −1 where there is no room for another. */
	private lane(part: number, tieHigh: number, tieLow: number, tieOpen: number): number {
		const index = this.laneIndex[part * modeCodes + tieHigh + 5 * tieLow + 25 * tieOpen] as number;
		return index >= 0 ? index * laneStride : this.addLane(part, tieHigh as Tie, tieLow as Tie, tieOpen as Tie);
	}

	/** The fields that every kept segment shares; takes the open slot. */
	private note(
		time: number,
		length: number,
		zRe: number,
		zIm: number,
		part: number,
		periodIndex: number,
		startTime: number,
	): void {
		const { stage } = this;
		const { emf, history } = stage;
		const v = history.values;
		const slot = history.offset(history.count);
		v[slot + segment.start] = time;
		v[slot + segment.length] = length;
		v[slot + segment.emfA] = emf.level[0] as number;
		v[slot + segment.emfB] = emf.level[1] as number;
		v[slot + segment.emfC] = emf.level[2] as number;
		v[slot + segment.slopeA] = 0;
		v[slot + segment.slopeB] = 0;
		v[slot + segment.slopeC] = 0;
		// only the open phase may be on a ramp
		const third = openPhase[this.kind] as number;
		const rise = emf.slope[third] as number;
		v[slot + segment.emfA + third] = (emf.level[third] as number) + rise * (time - (emf.zero[third] as number));
		v[slot + segment.slopeA + third] = rise;
		v[slot + segment.zRe] = zRe;
		v[slot + segment.zIm] = zIm;
		v[slot + segment.kind] = this.kind;
		// a period's start is an edge only where the one before had an off-window: the stage knows of the first
		if (part > 0) {
			v[slot + segment.ringTime] = startTime + (this.lengths[0] as number);
			v[slot + segment.ringPeriod] = periodIndex;
			v[slot + segment.ringEdge] = 1;
			v[slot + segment.ringKind] = this.kind;
		} else if (this.parts > 1 && periodIndex > stage.periodIndex) {
			v[slot + segment.ringTime] = startTime;
			v[slot + segment.ringPeriod] = periodIndex;
			v[slot + segment.ringEdge] = 0;
			v[slot + segment.ringKind] = this.kind;
		} else {
			v[slot + segment.ringTime] = stage.ringTime;
			v[slot + segment.ringPeriod] = stage.ringPeriod;
			v[slot + segment.ringEdge] = stage.ringEdge;
			v[slot + segment.ringKind] = stage.ringKind;
		}
		history.close();
	}

	/** Starts over for the stage's sector and duty; no parts where its periods cannot be regular. */
	private prepare(): void {
		const { stage, lengths, turnsRe, turnsIm } = this;
		const { circuit, emf } = stage;
		this.kind = stage.kind;
		this.duty = stage.duty;
		this.pieces = emf.pieces;
		this.laneCount = 0;
		this.laneIndex.fill(-1);
		const flat =
			!circuit.sinusoidal &&
			emf.slope[highPhase[stage.kind] as number] === 0 &&
			emf.slope[lowPhase[stage.kind] as number] === 0;
		this.parts = flat ? stage.partLengths(lengths) : 0;
		for (let part = 0; part < this.parts; part++) {
			const length = lengths[part] as number;
			this.starts[part] = part === 0 ? 0 : (this.starts[part - 1] as number) + (lengths[part - 1] as number);
			turnsRe[part] = smallCosine(circuit.rippleOmega * length);
			turnsIm[part] = smallSine(circuit.rippleOmega * length);
			this.highTies[part] = stage.tieOfHighIn(part);
			this.lowTies[part] = stage.tieOfLowIn(part);
		}
	}

	private addLane(part: number, tieHigh: Tie, tieLow: Tie, tieOpen: Tie): number {
		if (this.laneCount === mostLanes) return -1;
		const { lanes, stage, kind } = this;
		const { circuit, emf } = stage;
		const high = highPhase[kind] as number;
		const low = lowPhase[kind] as number;
		const third = openPhase[kind] as number;
		const ties: [Tie, Tie, Tie] = [open, open, open];
		ties[high] = tieHigh;
		ties[low] = tieLow;
		ties[third] = tieOpen;
		const mode = circuit.mode(ties[0], ties[1], ties[2]);
		const lane = this.laneCount * laneStride;
		this.laneModes[this.laneCount] = mode;
		this.laneIndex[part * modeCodes + modeCode(tieHigh, tieLow, tieOpen)] = this.laneCount++;

		const eHigh = emf.level[high] as number;
		const eLow = emf.level[low] as number;
		const weight = (k: number): number => (k === 0 ? mode.neutralEmfA : k === 1 ? mode.neutralEmfB : mode.neutralEmfC);
		lanes[lane + modals] = mode.modalCount;
		lanes[lane + neutral] = mode.neutral + weight(high) * eHigh + weight(low) * eLow;
		lanes[lane + neutralEmf] = weight(third);
		lanes[lane + neutralRipple] = mode.neutralRipple;
		lanes[lane + neutralModal] = mode.neutral0;
		lanes[lane + lowRail] = mode.lowRail0;
		for (const m of [0, 1] as const) {
			const p = lane + modal0 + m * modalStride;
			const uHigh = mode.u(high, m);
			const uLow = mode.u(low, m);
			const uOpen = mode.u(third, m);
			const lambda = m === 0 ? mode.rate0 : mode.rate1;
			const flats = uHigh * eHigh + uLow * eLow;
			const rise = uOpen * (emf.slope[third] as number);
			const push = (m === 0 ? mode.drive0 : mode.drive1) - flats;
			lanes[p + fromHigh] = uHigh * (circuit.inductance[high] as number);
			lanes[p + fromLow] = uLow * (circuit.inductance[low] as number);
			lanes[p + fromOpen] = uOpen * (circuit.inductance[third] as number);
			lanes[p + toHigh] = uHigh;
			lanes[p + toLow] = uLow;
			lanes[p + toOpen] = uOpen;
			lanes[p + rate] = lambda;
			lanes[p + inverseRate] = 1 / lambda;
			lanes[p + full] = m < mode.modalCount ? decay(lambda * (this.lengths[part] as number)) : 0;
			lanes[p + drive] = push;
			lanes[p + slope] = -rise / lambda;
			lanes[p + constant] = (push + rise / lambda) / lambda;
			lanes[p + perEmf] = -uOpen / lambda;
			lanes[p + gainRe] = m === 0 ? mode.rippleRe0 : mode.rippleRe1;
			lanes[p + gainIm] = m === 0 ? mode.rippleIm0 : mode.rippleIm1;
			lanes[p + rippleDrive] = m === 0 ? mode.rippleDrive0 : mode.rippleDrive1;
			lanes[p + level] = flats;
			lanes[p + tilt] = rise;
		}
		return lane;
	}
}

/** Least distance from the rails, V, at which an open terminal is taken to have stayed between them. */
const margin = 1e-2;
/** As in power-stage.ts: a Newton step shorter than this (s) is the last. */
const lastStep = 3e-10;
