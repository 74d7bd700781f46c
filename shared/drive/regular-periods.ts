import { decayInPlace } from '../maths/decay.ts';
import { realZero } from '../maths/real-zero.ts';
import { turnInPlace } from '../maths/small-angle.ts';
import type { BackEmf } from './back-emf.ts';
import type { Circuit } from './circuit.ts';
import { highPhase, lowPhase, openPhase } from './commutation-table.ts';
import { highDiode, lowDiode, open, type Tie } from './conduction-mode.ts';
import { Glide, margin, shortestGlide } from './glide.ts';
import { type LaneModal, LaneTable, mostParts } from './lane-table.ts';
import type { Segment } from './segment.ts';
import type { SegmentHistory } from './segment-history.ts';

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
	readonly iA: number;
	readonly iB: number;
	readonly iC: number;
	partLengths(lengths: Float64Array): number;
	tieOfHighIn(part: number): Tie;
	tieOfLowIn(part: number): Tie;
	land(periods: number, state: Float64Array): void;
}

/**
 * The stretch that makes up most of every run, done in one loop: whole PWM
 * periods in which the driven phases stand on the flats of a trapezoid and no
 * diode starts but at a gate edge (they may stop anywhere). What such a period
 * needs stands in a table of lanes; numbers stay in locals.
 *
 * It computes what PowerStage.trace and .commit compute, and stops in front of
 * any period that is not of this kind; those remain the readable reference
 * that it is tested against.
 */
export class RegularPeriods {
	private readonly stage: Stage;
	readonly table = new LaneTable();
	private readonly glide = new Glide();
	readonly lengths = new Float64Array(mostParts);
	private readonly starts = new Float64Array(mostParts);
	readonly turnsRe = new Float64Array(mostParts);
	readonly turnsIm = new Float64Array(mostParts);
	/** Ties of + and − phase by their switches in each part; `open` where both are off. */
	readonly highTies = new Int8Array(mostParts);
	readonly lowTies = new Int8Array(mostParts);
	parts = 0;
	/** Counts the changes of sector and duty. */
	version = 0;
	/** To and from the stage: the three currents (A), the ripple's phasor, work done (J); open phase's EMF and its slope. */
	private readonly state = new Float64Array(8);
	/** Numbers on their way through decayInPlace and turnInPlace. */
	private readonly cells = new Float64Array(4);
	/** What all this holds for. */
	private kind = -1;
	private duty = realZero;
	private pieces = -1;

	get circuit(): Circuit {
		return this.stage.circuit;
	}

	constructor(stage: Stage) {
		this.stage = stage;
	}

	/** The drive has changed. */
	reset(): void {
		this.kind = -1;
		this.table.reset();
	}

	/**
	 * Runs up to `most` whole periods from the present one's start, all at the
	 * present duty and before the next corner.
	 * @param keep whether the segments go into the history
	 * @returns periods done; 0 where the first one is not regular
	 */
	run(most: number, keep: boolean): number {
		const { stage, table, lengths, starts, turnsRe, turnsIm, highTies, lowTies, cells, state } = this;
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

		state[0] = stage.iA;
		state[1] = stage.iB;
		state[2] = stage.iC;
		state[3] = stage.zRe;
		state[4] = stage.zIm;
		state[5] = 0;
		let done = 0;
		if (!keep && most >= shortestGlide && state[third] === 0) {
			state[6] = emfLevel + emfRate * ((periodIndex - carrierPhase) * period - emfZero);
			state[7] = emfRate;
			done = this.glide.run(this, state, high, low, most);
		}
		let iHigh = state[high] as number;
		let iLow = state[low] as number;
		let iOpen = state[third] as number;
		let zRe = state[3] as number;
		let zIm = state[4] as number;
		let work = state[5] as number;

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
				const partTurnRe = turnsRe[part] as number;
				const partTurnIm = turnsIm[part] as number;
				// the ripple's phasor at the part's end
				const zRePart = zRe * partTurnRe - zIm * partTurnIm;
				const zImPart = zRe * partTurnIm + zIm * partTurnRe;
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
					const lane = table.at(part, tieHigh, tieLow, open);
					if (lane === null) {
						regular = false;
						break;
					}
					const { first } = lane;
					const emfOpen = emfLevel + emfRate * (time - emfZero);
					const constantStar = lane.neutral;
					const rippleStar = lane.neutralRipple * amplitude;
					const modalStar = lane.neutralModal;
					const rail = lane.lowRail;
					const y = first.fromHigh * iHigh + first.fromLow * iLow;
					const gRe = first.gainRe;
					const gIm = first.gainIm;
					const a = first.constant;
					const d = y - a - gRe * zIm - gIm * zRe;
					const fade = first.full;
					const yEnd = a + gRe * zImPart + gIm * zRePart + d * fade;
					const begins = emfOpen + constantStar + rippleStar * zIm + modalStar * y;
					const ends = emfOpen + emfRate * length + constantStar + rippleStar * zImPart + modalStar * yEnd;
					const iEnd = first.toHigh * yEnd;
					const flows = iEnd > 0 && iHigh > 0;
					if (
						(flows || (tieHigh < highDiode && tieLow < highDiode)) &&
						begins <= top + amplitude * zIm &&
						begins >= rail * y - diodeDrop &&
						ends <= top + amplitude * zImPart - margin &&
						ends >= rail * yEnd - diodeDrop + margin
					) {
						added +=
							first.level *
							(first.drive * length + first.rippleDrive * rippleTime * (zRe - zRePart) - (yEnd - y)) *
							first.inverseRate;
						lane.lastStop = 0;
						if (keep) {
							const segment = history.open(lane.mode);
							segment.a0 = a;
							segment.b0 = 0;
							segment.d0 = d;
							segment.a1 = 0;
							segment.b1 = 0;
							segment.d1 = 0;
							segment.decay0 = fade;
							segment.decay1 = 0;
							segment.start = time;
							segment.length = length;
							segment.zRe = zRe;
							segment.zIm = zIm;
							this.note(segment, part, periodIndex + done);
						}
						iHigh = iEnd;
						iLow = first.toLow * yEnd;
						zRe = zRePart;
						zIm = zImPart;
						continue;
					}
				}

				while (rest > 0) {
					let lane = table.at(part, tieHigh, tieLow, tieOpen);
					if (lane === null) {
						regular = false;
						break;
					}
					const emfOpen = emfLevel + emfRate * (time - emfZero);
					let { first } = lane;
					let y0 = first.fromHigh * iHigh + first.fromLow * iLow + first.fromOpen * iOpen;

					// open terminals must lie between the rails; at a part's start one may not, and its diode starts
					if (tieOpen === open || tieHigh === open || tieLow === open) {
						const ripple = amplitude * zIm;
						const star =
							lane.neutral + lane.neutralEmf * emfOpen + lane.neutralRipple * ripple + lane.neutralModal * y0;
						const ceiling = top + ripple + 1e-9;
						const floor = lane.lowRail * y0 - diodeDrop - 1e-9;
						const outHigh = tieHigh === open && (star + emfHigh > ceiling || star + emfHigh < floor);
						const outLow = tieLow === open && (star + emfLow > ceiling || star + emfLow < floor);
						if (outHigh || outLow || (lane.modals === 0 && tieHigh === open && tieLow === open)) {
							regular = false;
							break;
						}
						if (tieOpen === open && (star + emfOpen > ceiling || star + emfOpen < floor)) {
							if (!began) {
								regular = false;
								break;
							}
							tieOpen = star + emfOpen > ceiling ? highDiode : lowDiode;
							lane = table.at(part, tieHigh, tieLow, tieOpen);
							if (lane === null) {
								regular = false;
								break;
							}
							first = lane.first;
							y0 = first.fromHigh * iHigh + first.fromLow * iLow + first.fromOpen * iOpen;
						}
					}
					began = false;

					const count = lane.modals;
					let span = rest;
					let zReEnd = zRePart;
					let zImEnd = zImPart;
					let y0End = 0;
					let y1End = 0;
					let segment: Segment | null = null;
					let stopped = 0; // 1, 2, 3: the diode of the + − open phase stops at the segment's end

					if (count > 0) {
						const { second } = lane;
						const two = count > 1;
						const rate0 = first.rate;
						const b0 = first.slope;
						const a0 = first.constant + first.perEmf * emfOpen;
						const g0Re = first.gainRe;
						const g0Im = first.gainIm;
						const d0 = y0 - a0 - (g0Re * zIm + g0Im * zRe);
						let decay0 = 0;
						let y1 = 0;
						let rate1 = 0;
						let b1 = 0;
						let a1 = 0;
						let g1Re = 0;
						let g1Im = 0;
						let d1 = 0;
						let decay1 = 0;
						if (two) {
							rate1 = second.rate;
							b1 = second.slope;
							a1 = second.constant + second.perEmf * emfOpen;
							g1Re = second.gainRe;
							g1Im = second.gainIm;
							y1 = second.fromHigh * iHigh + second.fromLow * iLow + second.fromOpen * iOpen;
							d1 = y1 - a1 - (g1Re * zIm + g1Im * zRe);
						}

						// a diode stops at about the time when one did in the period before, or else as the stretch's end tells
						let to0 = 0;
						let to1 = 0;
						let sign = 1;
						let begin = 0;
						let settled = true;
						let s = lane.lastStop;
						let remembered = s > 0 && s < span;
						const fastest = Math.max(rate0, rate1, omega);
						let again = true;
						while (again) {
							again = false;
							if (remembered) {
								stopped = lane.lastStopped;
								const tie = stopped === 3 ? tieOpen : stopped === 1 ? tieHigh : tieLow;
								sign = tie === lowDiode ? 1 : -1;
								to0 = toPhase(first, stopped);
								to1 = toPhase(second, stopped);
								begin = sign * (stopped === 3 ? iOpen : stopped === 1 ? iHigh : iLow);
							} else {
								if (span === length) {
									decay0 = first.full;
									decay1 = two ? second.full : 0;
								} else {
									const beyond = span - lane.lastSpan;
									if (beyond * fastest < shortShare && beyond * fastest > -shortShare) {
										decay0 = lane.spanDecay0 * shortDecay(rate0 * beyond);
										decay1 = lane.spanDecay1 * shortDecay(rate1 * beyond);
									} else {
										cells[0] = rate0 * span;
										decayInPlace(cells, 0);
										decay0 = cells[0] as number;
										if (two) {
											cells[1] = rate1 * span;
											decayInPlace(cells, 1);
											decay1 = cells[1] as number;
										}
										lane.lastSpan = span;
										lane.spanDecay0 = decay0;
										lane.spanDecay1 = decay1;
									}
								}
								y0End = a0 + b0 * span + g0Re * zImPart + g0Im * zRePart + d0 * decay0;
								if (two) y1End = a1 + b1 * span + g1Re * zImPart + g1Im * zRePart + d1 * decay1;
								// whose? sign·(to0·y0 + to1·y1) is its current, kept from reversing
								stopped = 0;
								let several = false;
								for (let turn = 0; turn < 3; turn++) {
									const which = turn === 0 ? 3 : turn;
									const tie = which === 3 ? tieOpen : which === 1 ? tieHigh : tieLow;
									if (tie < highDiode) continue;
									const way = tie === lowDiode ? 1 : -1;
									const t0 = toPhase(first, which);
									const t1 = toPhase(second, which);
									if (!(way * (t0 * y0End + t1 * y1End) <= 0)) continue;
									several = stopped !== 0;
									stopped = which;
									begin = way * (which === 3 ? iOpen : which === 1 ? iHigh : iLow);
									sign = way;
									to0 = t0;
									to1 = t1;
								}
								if (several && two) {
									settled = false; // which is first is for the careful way
									break;
								}
								if (stopped === 0) {
									lane.lastStop = 0;
									settled = true;
									break;
								}
							}

							settled = false;
							const slope0 =
								sign *
								(to0 * (b0 + omega * (g0Re * zRe - g0Im * zIm) - rate0 * d0) +
									to1 * (b1 + omega * (g1Re * zRe - g1Im * zIm) - rate1 * d1));
							let possible = begin > 1e-9 && slope0 < 0;
							if (possible && !remembered) {
								// time as a cubic in the current, from both ends
								const end = sign * (to0 * y0End + to1 * y1End);
								const slopeEnd =
									sign *
									(to0 * (b0 + omega * (g0Re * zRePart - g0Im * zImPart) - rate0 * d0 * decay0) +
										to1 * (b1 + omega * (g1Re * zRePart - g1Im * zImPart) - rate1 * d1 * decay1));
								const range = end - begin;
								const x = -begin / range;
								const y = 1 - x;
								s = span * x * x * (3 - 2 * x) + (range / slope0) * x * y * y - (range / slopeEnd) * x * x * y;
								possible = slopeEnd < 0;
							}
							for (let tries = 0; possible && tries < 20 && s >= 0 && s <= span; tries++) {
								if (!remembered || tries > 0) {
									cells[0] = rate0 * s;
									decayInPlace(cells, 0);
									cells[1] = rate1 * s;
									if (two) decayInPlace(cells, 1);
									cells[2] = omega * s;
									turnInPlace(cells, 2);
									lane.lastStop = s;
									lane.lastStopped = stopped;
									lane.stopDecay0 = cells[0] as number;
									lane.stopDecay1 = cells[1] as number;
									lane.stopTurnRe = cells[2] as number;
									lane.stopTurnIm = cells[3] as number;
								}
								decay0 = lane.stopDecay0;
								decay1 = lane.stopDecay1;
								const turnRe = lane.stopTurnRe;
								const turnIm = lane.stopTurnIm;
								zReEnd = zRe * turnRe - zIm * turnIm;
								zImEnd = zRe * turnIm + zIm * turnRe;
								// of each modal current: the ripple's part, its derivative over Ω, and what decays
								const ripple0 = g0Re * zImEnd + g0Im * zReEnd;
								const swing0 = g0Re * zReEnd - g0Im * zImEnd;
								const fading0 = d0 * decay0;
								const y0Rate = b0 + omega * swing0 - rate0 * fading0;
								const y0Bend = rate0 * rate0 * fading0 - omega * omega * ripple0;
								const y0Twist = -rate0 * rate0 * rate0 * fading0 - omega * omega * omega * swing0;
								y0End = a0 + b0 * s + ripple0 + fading0;
								let y1Rate = 0;
								let y1Bend = 0;
								let y1Twist = 0;
								if (two) {
									const ripple1 = g1Re * zImEnd + g1Im * zReEnd;
									const swing1 = g1Re * zReEnd - g1Im * zImEnd;
									const fading1 = d1 * decay1;
									y1Rate = b1 + omega * swing1 - rate1 * fading1;
									y1Bend = rate1 * rate1 * fading1 - omega * omega * ripple1;
									y1Twist = -rate1 * rate1 * rate1 * fading1 - omega * omega * omega * swing1;
									y1End = a1 + b1 * s + ripple1 + fading1;
								}
								const value = sign * (to0 * y0End + to1 * y1End);
								const valueRate = sign * (to0 * y0Rate + to1 * y1Rate);
								if (!(valueRate < 0)) break;
								const scale = -1 / valueRate;
								let step = value * scale;
								if (step * fastest < shortShare && step * fastest > -shortShare) {
									// the rest by Taylor's series, to the third order: step = newton + bend·step² + twist·step³
									const newton = step;
									const bend = 0.5 * sign * scale * (to0 * y0Bend + to1 * y1Bend);
									const twist = (1 / 6) * sign * scale * (to0 * y0Twist + to1 * y1Twist);
									step = newton + newton * newton * (bend + twist * newton);
									step = newton + step * step * (bend + twist * step);
									y0End += step * (y0Rate + step * (0.5 * y0Bend + step * (1 / 6) * y0Twist));
									y1End += step * (y1Rate + step * (0.5 * y1Bend + step * (1 / 6) * y1Twist));
									decay0 *= shortDecay(rate0 * step);
									decay1 *= shortDecay(rate1 * step);
									const angle = omega * step;
									const c = 1 - 0.5 * angle * angle;
									const turned = zReEnd * c - zImEnd * angle * (1 - (1 / 6) * angle * angle);
									zImEnd = zImEnd * c + zReEnd * angle * (1 - (1 / 6) * angle * angle);
									zReEnd = turned;
									s += step;
									settled = s > 0 && s <= span;
									break;
								}
								s += step;
							}
							if (settled && remembered && two) {
								// any other diode must still conduct
								for (let which = 1; which <= 3; which++) {
									const tie = which === 3 ? tieOpen : which === 1 ? tieHigh : tieLow;
									if (tie < highDiode || which === stopped) continue;
									const current = toPhase(first, which) * y0End + toPhase(second, which) * y1End;
									if (!(tie === lowDiode ? current > 0 : current < 0)) settled = false;
								}
							}
							if (settled) {
								span = s;
							} else if (remembered) {
								remembered = false;
								again = true;
								zReEnd = zRePart;
								zImEnd = zImPart;
							}
						}
						if (!settled) {
							regular = false;
							break;
						}

						// ∫ Σ e i, as in PowerStage.addWork
						const ripple = rippleTime * (zRe - zReEnd);
						const time0 = first.inverseRate;
						const tilt0 = first.tilt;
						const lift0 = first.toOpen * emfOpen;
						const f0 = first.drive - lift0;
						const r0 = first.rippleDrive;
						const half = 0.5 * span * span;
						const area0 = (f0 * span - tilt0 * half + r0 * ripple - (y0End - y0)) * time0;
						added += (first.level + lift0) * area0;
						if (tilt0 !== 0 || two) {
							const cube = span * span * span * (1 / 3);
							const moment = rippleTime * ((zImEnd - zIm) * inverseOmega - span * zReEnd);
							added += tilt0 * (f0 * half - tilt0 * cube + r0 * moment - span * y0End + area0) * time0;
							if (two) {
								const time1 = second.inverseRate;
								const tilt1 = second.tilt;
								const lift1 = second.toOpen * emfOpen;
								const f1 = second.drive - lift1;
								const r1 = second.rippleDrive;
								const area1 = (f1 * span - tilt1 * half + r1 * ripple - (y1End - y1)) * time1;
								added += (second.level + lift1) * area1;
								added += tilt1 * (f1 * half - tilt1 * cube + r1 * moment - span * y1End + area1) * time1;
							}
						}
						if (keep && span > 0) {
							segment = history.open(lane.mode);
							segment.a0 = a0;
							segment.b0 = b0;
							segment.d0 = d0;
							segment.a1 = a1;
							segment.b1 = b1;
							segment.d1 = d1;
							segment.decay0 = decay0;
							segment.decay1 = decay1;
						}
						iHigh = first.toHigh * y0End + second.toHigh * y1End;
						iLow = first.toLow * y0End + second.toLow * y1End;
						iOpen = first.toOpen * y0End + second.toOpen * y1End;
					} else if (keep) {
						segment = history.open(lane.mode);
						segment.a0 = segment.b0 = segment.d0 = 0;
						segment.a1 = segment.b1 = segment.d1 = 0;
					}
					if (segment !== null) {
						segment.start = time;
						segment.length = span;
						segment.zRe = zRe;
						segment.zIm = zIm;
						this.note(segment, part, periodIndex + done);
					}

					if (count < 2) {
						// an open terminal that ends near or beyond a rail is for the careful way
						const ripple = amplitude * zImEnd;
						const emfEnd = emfOpen + emfRate * span;
						const star =
							lane.neutral + lane.neutralEmf * emfEnd + lane.neutralRipple * ripple + lane.neutralModal * y0End;
						const ceiling = top + ripple - margin;
						const floor = lane.lowRail * y0End - diodeDrop + margin;
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
			state[high] = iHigh;
			state[low] = iLow;
			state[third] = iOpen;
			state[3] = zRe;
			state[4] = zIm;
			state[5] = work;
			stage.land(done, state);
		}
		return done;
	}

	/** Fills in what the loop does not know of a kept segment; takes it. */
	private note(segment: Segment, part: number, periodIndex: number): void {
		const { stage } = this;
		const { emf, history } = stage;
		const startTime = (periodIndex - stage.carrierPhase) * stage.circuit.period;
		emf.describe(segment);
		segment.kind = this.kind;
		// a period's start is an edge only where the one before had an off-window: the stage knows of the first
		if (part > 0) {
			segment.ringTime = startTime + (this.lengths[0] as number);
			segment.ringPeriod = periodIndex;
			segment.ringEdge = 1;
			segment.ringKind = this.kind;
		} else if (this.parts > 1 && periodIndex > stage.periodIndex) {
			segment.ringTime = startTime;
			segment.ringPeriod = periodIndex;
			segment.ringEdge = 0;
			segment.ringKind = this.kind;
		} else {
			segment.ringTime = stage.ringTime;
			segment.ringPeriod = stage.ringPeriod;
			segment.ringEdge = stage.ringEdge;
			segment.ringKind = stage.ringKind;
		}
		history.close();
	}

	/** Turns to the stage's sector and duty; no parts where its periods cannot be regular. */
	private prepare(): void {
		const { stage, lengths, turnsRe, turnsIm, cells } = this;
		const { circuit, emf } = stage;
		this.kind = stage.kind;
		this.duty = stage.duty;
		this.pieces = emf.pieces;
		this.version++;
		const flat =
			!circuit.sinusoidal &&
			emf.slope[highPhase[stage.kind] as number] === 0 &&
			emf.slope[lowPhase[stage.kind] as number] === 0;
		this.parts = flat ? stage.partLengths(lengths) : 0;
		if (this.parts > 0) this.table.enter(circuit, emf, stage.kind, lengths);
		for (let part = 0; part < this.parts; part++) {
			const length = lengths[part] as number;
			this.starts[part] = part === 0 ? 0 : (this.starts[part - 1] as number) + (lengths[part - 1] as number);
			cells[2] = circuit.rippleOmega * length;
			turnInPlace(cells, 2);
			turnsRe[part] = cells[2] as number;
			turnsIm[part] = cells[3] as number;
			this.highTies[part] = stage.tieOfHighIn(part);
			this.lowTies[part] = stage.tieOfLowIn(part);
		}
	}
}

/**
 * A Newton step shorter than this share of the fastest time constant is the last, its result taken from Taylor's
 * series to the third order: what that leaves out is below 3·10⁻¹⁵ of what decays.
 */
const shortShare = 5e-4;

/** e^−x by the same series; so short that the compiler puts it in place. */
const shortDecay = (x: number): number => 1 - x * (1 - 0.5 * x * (1 - (1 / 3) * x));

/** Weight of a modal current in the current of the + (1), − (2) or open (3) phase. */
function toPhase(modal: LaneModal, which: number): number {
	return which === 3 ? modal.toOpen : which === 1 ? modal.toHigh : modal.toLow;
}
