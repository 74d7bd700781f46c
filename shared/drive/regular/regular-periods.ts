import { decayInPlace } from '../../maths/decay.ts';
import { realZero } from '../../maths/real-zero.ts';
import { turnInPlace } from '../../maths/turn.ts';
import type { BackEmf } from '../back-emf.ts';
import type { Circuit } from '../circuit.ts';
import { openPhase } from '../commutation-table.ts';
import { freeTie, highDiode, lowDiode, open } from '../conduction-mode.ts';
import {
	type Edge,
	mostParts,
	type PeriodPlace,
	type PwmCarrier,
	turnOff,
	turnOn,
} from '../power-stage/pwm-carrier.ts';
import type { Segment } from '../segment.ts';
import type { SegmentHistory } from '../segment-history.ts';
import { DiodeStop } from './diode-stop.ts';
import { Glide, shortestGlide } from './glide.ts';
import { type Lane, type LaneDiode, type LaneModal, LaneTable, type LaneTerminal, setFull } from './lane-table.ts';
import { PeriodState } from './period-state.ts';
import { shortDecay, shortShare } from './short-step.ts';

/** What is needed of the power stage. */
interface Stage {
	readonly circuit: Circuit;
	readonly carrier: PwmCarrier;
	readonly emf: BackEmf;
	readonly history: SegmentHistory;
	readonly kind: number;
	readonly longest: number;
	readonly rings: boolean;
	readonly ringTime: number;
	readonly ringPeriod: number;
	readonly ringEdge: number;
	readonly ringKind: number;
	noteEdge(edge: Edge, period: number): void;
	launch(state: PeriodState): void;
	land(place: PeriodPlace, state: PeriodState): void;
}

/**
 * The short way, which takes nearly all of every run: from where the stage
 * stands on over PWM periods and what corners of the back-EMF and commutations
 * leave of them, as long as no diode starts but the open phase's at a gate edge
 * (they may stop anywhere). What that needs stands in a table of lanes.
 *
 * It computes what PowerStage.trace and .commit compute, and lands in front of
 * any segment that is not of this kind; those remain the readable reference
 * that it is tested against.
 */
export class RegularPeriods {
	private readonly stage: Stage;
	/** The drive's, which its stages share. */
	table = new LaneTable();
	private readonly glide = new Glide();
	readonly lengths = new Float64Array(mostParts);
	private readonly starts = new Float64Array(mostParts);
	readonly turnsRe = new Float64Array(mostParts);
	readonly turnsIm = new Float64Array(mostParts);
	/** The same of the electrical angle, sinusoidal back-EMF only. */
	private readonly rotorTurnsRe = new Float64Array(mostParts);
	private readonly rotorTurnsIm = new Float64Array(mostParts);
	/** Ties of + and − phase by their switches in each part; `open` where both are off. */
	readonly highTies = new Int8Array(mostParts);
	readonly lowTies = new Int8Array(mostParts);
	parts = 0;
	/** Counts the changes of sector, duty and pieces of back-EMF. */
	version = 0;
	/** The present state and what it is followed with; and numbers on their way through decayInPlace and turnInPlace. */
	private readonly now = new PeriodState();
	private readonly scratch = new Float64Array(2);
	private readonly stop = new DiodeStop(this.now);
	/** Whether it may go over many periods in closed form. */
	glides = true;
	/** Whether segments are kept. */
	private keep = false;
	/** How far `run` is to go, s, not beyond the next corner: as its argument it would be put on the heap (period-state.ts). */
	until = realZero;
	/** Where the way stands. */
	period = 0;
	part = 0;
	offset = realZero;
	/** From here on it is not regular. */
	private refused = false;
	private sinusoidal = false;
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
		this.table.reset();
		this.restart();
	}

	/** Another run of the drive begins, or goes on from where it was. */
	restart(): void {
		this.kind = -1;
		this.table.forget();
	}

	/** Another stage's drive is this one's now, and what was worked out for it. */
	join(other: RegularPeriods): void {
		this.table = other.table;
		this.kind = -1;
	}

	/**
	 * Goes from where the stage stands to `until`, or to the last of so many ends of periods at the present duty,
	 * whichever comes first; or as far as the way is regular.
	 * @param keep whether the segments go into the history
	 * @returns whether it got on at all
	 */
	run(ends: number, keep: boolean): boolean {
		const { stage, lengths, starts, now } = this;
		const { carrier, emf, circuit, history } = stage;
		this.prepare();
		const { parts, kind } = this;
		if (parts === 0) return false;
		const { period: length } = circuit;
		const { periodIndex, periodStart, phase } = carrier;
		const { rings } = stage;
		stage.launch(now);
		now.amplitude = circuit.rippleAmplitude;
		now.omega = circuit.rippleOmega;
		now.inverseOmega = 1 / circuit.rippleOmega;
		now.rippleTime = circuit.rippleAmplitude / circuit.rippleOmega;
		now.drop = circuit.diodeDrop;
		now.top = circuit.voltage + circuit.diodeDrop;
		now.zero = emf.zero[openPhase[kind] as number] as number;
		this.keep = keep;
		this.refused = false;
		this.period = periodIndex;
		this.part = carrier.part;
		this.offset = carrier.offset;
		const whole = Math.floor((this.until - periodStart) / length - 1e-9);
		if (this.offset > 0) this.runBroken(whole > 0);
		if (!this.refused && this.offset === 0) {
			const end = periodIndex + Math.min(whole, ends);
			if (this.glides && !keep && end - this.period >= shortestGlide && now.open === 0 && !this.sinusoidal) {
				now.x = (this.period - phase) * length - now.zero;
				const gone = this.glide.run(this, now, end - this.period);
				this.period += gone;
				if (gone > 0 && rings && parts > 1) stage.noteEdge(turnOn, this.period);
			}
			while (this.period < end) {
				const start = (this.period - phase) * length - now.zero;
				for (let part = 0; part < parts && !this.refused; part++) {
					this.offset = starts[part] as number;
					if (rings && part === 1) stage.noteEdge(turnOff, this.period);
					now.x = start + this.offset;
					now.rest = now.part = lengths[part] as number;
					this.turnOver(part);
					this.goThrough(part);
				}
				if (this.refused) break;
				this.nextPeriod();
			}
			if (!this.refused && this.period - periodIndex < ends) this.runBroken(false);
		}
		if (this.refused) {
			// the last segment that was done ends here
			this.offset += now.part - now.rest;
		}
		if (!(this.period > periodIndex || this.offset > carrier.offset)) return false;
		if (!keep) history.forget();
		stage.land(this, now);
		return true;
	}

	/** In the present period from where the way stands on: to the period's end, or to `until`. */
	private runBroken(toEnd: boolean): void {
		const { stage, starts, lengths, parts, now } = this;
		const { rings, circuit, carrier } = stage;
		const { period } = circuit;
		const start = (this.period - carrier.phase) * period;
		const to = toEnd ? period : this.until - start;
		for (let { part } = this; this.offset < to; part++) {
			const from = this.offset;
			const end = part + 1 < parts ? (starts[part + 1] as number) : period;
			const stop = Math.min(end, to);
			now.x = start + from - now.zero;
			now.rest = now.part = stop - from;
			if (now.rest > 0) {
				if (stop === end && from === starts[part]) {
					now.rest = now.part = lengths[part] as number;
					this.turnOver(part);
				} else {
					this.turnFor(now.rest);
				}
				this.goThrough(part);
				if (this.refused) return;
			}
			this.offset = stop;
			if (stop < end) return;
			if (part + 1 === parts) {
				this.nextPeriod();
				return;
			}
			this.part = part + 1;
			if (rings && part === 0) stage.noteEdge(turnOff, this.period);
		}
	}

	/** From the state in `now` over now.rest of a part. */
	private goThrough(part: number): void {
		const { now } = this;
		this.part = part;
		let tieHigh = this.highTies[part] as number;
		let tieLow = this.lowTies[part] as number;
		if (tieHigh === open) tieHigh = freeTie(now.high);
		if (tieLow === open) tieLow = freeTie(now.low);
		let lane = this.table.at(part, tieHigh, tieLow, freeTie(now.open));
		this.refused = lane === null;
		while (lane !== null) {
			lane = lane.modals === 1 ? this.one(lane) : lane.modals === 2 ? this.two(lane) : this.none(lane);
		}
	}

	/** Works out the phasors at the end of a whole part that begins now. */
	private turnOver(part: number): void {
		this.turn(this.turnsRe[part] as number, this.turnsIm[part] as number);
		if (this.sinusoidal) this.turnRotor(this.rotorTurnsRe[part] as number, this.rotorTurnsIm[part] as number);
	}

	/** The same after so many seconds. */
	private turnFor(span: number): void {
		const { now, scratch } = this;
		scratch[0] = now.omega * span;
		turnInPlace(scratch, 0);
		this.turn(scratch[0] as number, scratch[1] as number);
		if (!this.sinusoidal) return;
		scratch[0] = now.rotor * span;
		turnInPlace(scratch, 0);
		this.turnRotor(scratch[0] as number, scratch[1] as number);
	}

	private turn(re: number, im: number): void {
		const { now } = this;
		const { zRe, zIm } = now;
		now.zRePart = zRe * re - zIm * im;
		now.zImPart = zRe * im + zIm * re;
	}

	private turnRotor(re: number, im: number): void {
		const { now } = this;
		const { wRe, wIm } = now;
		now.wRePart = wRe * re - wIm * im;
		now.wImPart = wRe * im + wIm * re;
	}

	// One segment each, from the state in `now` on. They return the lane that follows within the part: null at the part's
	// end, and where the segment is refused.

	/** Two phases conduct, the third terminal is open. */
	private one(lane: Lane): Lane | null {
		const { now } = this;
		const { first, terminal } = lane;
		const x = now.x;
		const rest = now.rest;
		const zRe = now.zRe;
		const zIm = now.zIm;
		const amplitude = now.amplitude;
		const y = first.fromHigh * now.high + first.fromLow * now.low + first.fromOpen * now.open;
		const star = lane.neutralRipple * amplitude;
		const modal = lane.neutralModal;
		const rail = lane.lowRail;
		let v = terminal.level + terminal.rate * x + star * zIm + modal * y;
		if (this.sinusoidal) v += terminal.emfRe * now.wIm + terminal.emfIm * now.wRe;
		if (v > now.top + amplitude * zIm + 1e-9) return this.startDiode(lane, terminal, highDiode);
		if (v < rail * y - now.drop - 1e-9) return this.startDiode(lane, terminal, lowDiode);

		const b = first.slope;
		const a = first.constant + b * x;
		let d = y - a - first.gainRe * zIm - first.gainIm * zRe;
		if (this.sinusoidal) d -= first.emfRe * now.wIm + first.emfIm * now.wRe;
		let span = rest;
		let zReEnd = now.zRePart;
		let zImEnd = now.zImPart;
		let yEnd = 0;
		let fade = 0;
		let stops = false;
		// one current: where two diodes carry it, both stop at once
		const { diode } = lane;
		if (lane.diodeCount > 0) {
			now.y0 = y;
			now.a0 = a;
			now.d0 = d;
			// at about the time when it did in the period before
			if (lane.lastStop > 0 && lane.lastStop < rest) stops = this.stop.one(lane, true);
		}
		if (!stops) {
			if (rest === now.part) {
				if (lane.length !== rest) {
					lane.length = rest;
					setFull(lane);
				}
				fade = first.full;
			} else {
				this.fadeOverRest(lane);
				fade = now.decay0;
			}
			yEnd = a + b * rest + first.gainRe * zImEnd + first.gainIm * zReEnd + d * fade;
			if (this.sinusoidal) {
				now.wReEnd = now.wRePart;
				now.wImEnd = now.wImPart;
				yEnd += first.emfRe * now.wImEnd + first.emfIm * now.wReEnd;
			}
			if (lane.diodeCount > 0 && !(diode.toFirst * yEnd > 0)) {
				now.span = (rest * y) / (y - yEnd);
				stops = this.stop.one(lane, false);
				if (!stops) return this.refuse();
			} else {
				lane.lastStop = 0;
				if (lane.diodeCount > 0 && diode.toFirst * yEnd < (lane.dip + lane.dip0 * Math.abs(d)) * rest * rest) {
					now.zReEnd = zReEnd;
					now.zImEnd = zImEnd;
					now.decay0 = fade;
					if (this.dips(lane, diode)) return this.refuse();
				}
			}
		}
		if (stops) {
			span = now.span;
			zReEnd = now.zReEnd;
			zImEnd = now.zImEnd;
			fade = now.decay0;
			yEnd = 0;
		}

		// an open terminal that ends near or beyond a rail is for the careful way
		let vEnd = terminal.level + terminal.rate * (x + span) + star * zImEnd + modal * yEnd;
		if (this.sinusoidal) vEnd += terminal.emfRe * now.wImEnd + terminal.emfIm * now.wReEnd;
		const allowed = lane.bend + lane.bendModal * Math.abs(d);
		if (vEnd > now.top + amplitude * zImEnd - allowed || vEnd < rail * yEnd - now.drop + allowed) {
			return this.refuse();
		}

		if (this.sinusoidal) {
			now.span = span;
			now.zReEnd = zReEnd;
			now.zImEnd = zImEnd;
			now.y0 = y;
			now.y0End = yEnd;
			this.addSinusoidalWork(lane);
		} else {
			// ∫ Σ e i, as in emf-work.ts
			const tilt = first.tilt;
			const level = first.level + tilt * x;
			const f = first.drive - level;
			const half = 0.5 * span * span;
			const rippleTime = now.rippleTime;
			const area =
				(f * span - tilt * half + first.rippleDrive * rippleTime * (zRe - zReEnd) - (yEnd - y)) * first.inverseRate;
			let work = level * area;
			if (tilt !== 0) {
				const moment = rippleTime * ((zImEnd - zIm) * now.inverseOmega - span * zReEnd);
				work +=
					tilt *
					(f * half - tilt * span * span * span * (1 / 3) + first.rippleDrive * moment - span * yEnd + area) *
					first.inverseRate;
			}
			now.work = now.work + work;
		}
		if (this.keep && span > 0) {
			const segment = this.stage.history.open(lane.mode);
			segment.a0 = a;
			segment.b0 = b;
			segment.d0 = d;
			segment.decay0 = fade;
			segment.length = span;
			this.note(segment);
		}
		if (this.sinusoidal) {
			now.wRe = now.wReEnd;
			now.wIm = now.wImEnd;
		}
		now.zRe = zReEnd;
		now.zIm = zImEnd;
		now.high = first.toHigh * yEnd;
		now.low = first.toLow * yEnd;
		now.open = first.toOpen * yEnd;
		return stops ? this.goOn(lane, diode) : null;
	}

	/** All three phases conduct. */
	private two(lane: Lane): Lane | null {
		const { now } = this;
		const { first, second } = lane;
		const x = now.x;
		const rest = now.rest;
		const zRe = now.zRe;
		const zIm = now.zIm;
		const iHigh = now.high;
		const iLow = now.low;
		const iOpen = now.open;
		const y0 = first.fromHigh * iHigh + first.fromLow * iLow + first.fromOpen * iOpen;
		const y1 = second.fromHigh * iHigh + second.fromLow * iLow + second.fromOpen * iOpen;
		const b0 = first.slope;
		const b1 = second.slope;
		const a0 = first.constant + b0 * x;
		const a1 = second.constant + b1 * x;
		let d0 = y0 - a0 - (first.gainRe * zIm + first.gainIm * zRe);
		let d1 = y1 - a1 - (second.gainRe * zIm + second.gainIm * zRe);
		if (this.sinusoidal) {
			const wRe = now.wRe;
			const wIm = now.wIm;
			d0 -= first.emfRe * wIm + first.emfIm * wRe;
			d1 -= second.emfRe * wIm + second.emfIm * wRe;
		}
		now.y0 = y0;
		now.y1 = y1;
		now.a0 = a0;
		now.a1 = a1;
		now.d0 = d0;
		now.d1 = d1;
		let stopped: LaneDiode | null = null;
		// at about the time when one did in the period before
		if (lane.lastStop > 0 && lane.lastStop < rest && this.stop.two(lane, lane.lastStopped, true)) {
			stopped = lane.lastStopped;
		}
		let span = rest;
		let zReEnd = now.zRePart;
		let zImEnd = now.zImPart;
		let y0End = 0;
		let y1End = 0;
		let decay0 = 0;
		let decay1 = 0;
		if (stopped === null) {
			if (rest === now.part) {
				if (lane.length !== rest) {
					lane.length = rest;
					setFull(lane);
				}
				decay0 = first.full;
				decay1 = second.full;
			} else {
				this.fadeOverRest(lane);
				decay0 = now.decay0;
				decay1 = now.decay1;
			}
			y0End = a0 + b0 * rest + first.gainRe * zImEnd + first.gainIm * zReEnd + d0 * decay0;
			y1End = a1 + b1 * rest + second.gainRe * zImEnd + second.gainIm * zReEnd + d1 * decay1;
			if (this.sinusoidal) {
				const wRe = now.wRePart;
				const wIm = now.wImPart;
				now.wReEnd = wRe;
				now.wImEnd = wIm;
				y0End += first.emfRe * wIm + first.emfIm * wRe;
				y1End += second.emfRe * wIm + second.emfIm * wRe;
			}
			// of several diodes the one that on a straight line stops first; whether it is, DiodeStop looks at
			let share = 1;
			for (let number = 0; number < lane.diodeCount; number++) {
				const diode = lane.diodes[number] as LaneDiode;
				const end = diode.toFirst * y0End + diode.toSecond * y1End;
				if (end > 0) continue;
				const begin = diode.toFirst * y0 + diode.toSecond * y1;
				if (stopped !== null && begin >= share * (begin - end)) continue;
				share = begin / (begin - end);
				stopped = diode;
			}
			if (stopped === null) lane.lastStop = 0;
			else {
				now.span = share * rest;
				if (!this.stop.two(lane, stopped, false)) return this.refuse();
			}
		}
		if (stopped !== null) {
			span = now.span;
			zReEnd = now.zReEnd;
			zImEnd = now.zImEnd;
			y0End = now.y0End;
			y1End = now.y1End;
			decay0 = now.decay0;
			decay1 = now.decay1;
		}
		if (lane.diodeCount > 0) {
			const least = (lane.dip + lane.dip0 * Math.abs(d0) + lane.dip1 * Math.abs(d1)) * span * span;
			for (let number = 0; number < lane.diodeCount; number++) {
				const diode = lane.diodes[number] as LaneDiode;
				if (diode === stopped || diode.toFirst * y0End + diode.toSecond * y1End >= least) continue;
				now.zReEnd = zReEnd;
				now.zImEnd = zImEnd;
				now.decay0 = decay0;
				now.decay1 = decay1;
				if (this.dips(lane, diode)) return this.refuse();
			}
		}

		if (this.sinusoidal) {
			now.span = span;
			now.zReEnd = zReEnd;
			now.zImEnd = zImEnd;
			now.y0End = y0End;
			now.y1End = y1End;
			this.addSinusoidalWork(lane);
		} else {
			const tilt0 = first.tilt;
			const tilt1 = second.tilt;
			const level0 = first.level + tilt0 * x;
			const level1 = second.level + tilt1 * x;
			const f0 = first.drive - level0;
			const f1 = second.drive - level1;
			const half = 0.5 * span * span;
			const cube = span * span * span * (1 / 3);
			const rippleTime = now.rippleTime;
			const rippleArea = rippleTime * (zRe - zReEnd);
			const moment = rippleTime * ((zImEnd - zIm) * now.inverseOmega - span * zReEnd);
			const area0 = (f0 * span - tilt0 * half + first.rippleDrive * rippleArea - (y0End - y0)) * first.inverseRate;
			const area1 = (f1 * span - tilt1 * half + second.rippleDrive * rippleArea - (y1End - y1)) * second.inverseRate;
			now.work =
				now.work +
				level0 * area0 +
				tilt0 * (f0 * half - tilt0 * cube + first.rippleDrive * moment - span * y0End + area0) * first.inverseRate +
				level1 * area1 +
				tilt1 * (f1 * half - tilt1 * cube + second.rippleDrive * moment - span * y1End + area1) * second.inverseRate;
		}
		if (this.keep && span > 0) {
			const segment = this.stage.history.open(lane.mode);
			segment.a0 = a0;
			segment.b0 = b0;
			segment.d0 = d0;
			segment.a1 = a1;
			segment.b1 = b1;
			segment.d1 = d1;
			segment.decay0 = decay0;
			segment.decay1 = decay1;
			segment.length = span;
			this.note(segment);
		}
		now.zRe = zReEnd;
		now.zIm = zImEnd;
		if (this.sinusoidal) {
			now.wRe = now.wReEnd;
			now.wIm = now.wImEnd;
		}
		now.high = first.toHigh * y0End + second.toHigh * y1End;
		now.low = first.toLow * y0End + second.toLow * y1End;
		now.open = first.toOpen * y0End + second.toOpen * y1End;
		if (stopped === null) return null;
		// the current that has come to zero is put there exactly, the others made to add up
		if (stopped.phase === 3) {
			now.open = 0;
			now.low = -now.high;
		} else if (stopped.phase === 1) {
			now.high = 0;
			now.low = -now.open;
		} else {
			now.low = 0;
			now.high = -now.open;
		}
		return this.goOn(lane, stopped);
	}

	/** No current flows: one phase is tied and two terminals are open, or all are. */
	private none(lane: Lane): Lane | null {
		const { now } = this;
		const x = now.x;
		const span = now.rest;
		const amplitude = now.amplitude;
		const zIm = now.zIm;
		const zImEnd = now.zImPart;
		const top = now.top;
		const floor = -now.drop;
		const allowed = lane.bend;
		for (let number = 0; number < lane.terminalCount; number++) {
			const terminal = lane.terminals[number] as LaneTerminal;
			let v = terminal.level + terminal.rate * x + lane.neutralRipple * amplitude * zIm;
			let vEnd = terminal.level + terminal.rate * (x + span) + lane.neutralRipple * amplitude * zImEnd;
			if (this.sinusoidal) {
				v += terminal.emfRe * now.wIm + terminal.emfIm * now.wRe;
				vEnd += terminal.emfRe * now.wImPart + terminal.emfIm * now.wRePart;
			}
			if (v > top + amplitude * zIm + 1e-9) return this.startDiode(lane, terminal, highDiode);
			if (v < floor - 1e-9) return this.startDiode(lane, terminal, lowDiode);
			if (vEnd > top + amplitude * zImEnd - allowed || vEnd < floor + allowed) return this.refuse();
		}
		if (this.keep) {
			const segment = this.stage.history.open(lane.mode);
			segment.a0 = segment.b0 = segment.d0 = 0;
			segment.length = span;
			this.note(segment);
		}
		now.zRe = now.zRePart;
		now.zIm = zImEnd;
		if (this.sinusoidal) {
			now.wRe = now.wRePart;
			now.wIm = now.wImPart;
		}
		return null;
	}

	/** Whether a diode's current falls at the segment's start and rises at its end: it may have been zero in between. */
	private dips(lane: Lane, diode: LaneDiode): boolean {
		const { now } = this;
		let atStart = 0;
		let atEnd = 0;
		for (let m = 0; m < lane.modals; m++) {
			const modal = m === 0 ? lane.first : lane.second;
			const to = m === 0 ? diode.toFirst : diode.toSecond;
			const d = m === 0 ? now.d0 : now.d1;
			const decay = m === 0 ? now.decay0 : now.decay1;
			atStart += to * rateOf(modal, now, d, now.zRe, now.zIm, now.wRe, now.wIm);
			atEnd += to * rateOf(modal, now, d * decay, now.zReEnd, now.zImEnd, now.wReEnd, now.wImEnd);
		}
		return atStart < 0 && atEnd > 0;
	}

	private refuse(): null {
		this.refused = true;
		return null;
	}

	/** The open phase's diode may start, at a part's beginning. */
	private startDiode(lane: Lane, terminal: LaneTerminal, diode: number): Lane | null {
		const { now } = this;
		if (terminal.phase !== 3 || now.rest !== now.part) return this.refuse();
		return this.table.at(lane.part, lane.tieHigh, lane.tieLow, diode) ?? this.refuse();
	}

	/** After `diode` has stopped, now.span into its lane. */
	private goOn(lane: Lane, diode: LaneDiode): Lane | null {
		const { now } = this;
		now.x = now.x + now.span;
		const rest = now.rest - now.span;
		now.rest = rest;
		if (!(rest > 0)) return null;
		return this.table.after(lane, diode) ?? this.refuse();
	}

	/** Decays over what is left of the part, into now.decay0 and now.decay1: by a short step from a span that the lane remembers. */
	private fadeOverRest(lane: Lane): void {
		const { now, scratch } = this;
		const rest = now.rest;
		const beyond = rest - lane.lastSpan;
		let shift0 = lane.first.rate * beyond;
		let shift1 = lane.modals > 1 ? lane.second.rate * beyond : 0;
		if (!(shift0 * shift0 + shift1 * shift1 < shortShare * shortShare)) {
			shift0 = shift1 = 0;
			lane.lastSpan = rest;
			scratch[0] = lane.first.rate * rest;
			decayInPlace(scratch, 0);
			lane.spanDecay0 = scratch[0] as number;
			scratch[0] = lane.second.rate * rest;
			if (lane.modals > 1) decayInPlace(scratch, 0);
			lane.spanDecay1 = scratch[0] as number;
		}
		now.decay0 = lane.spanDecay0 * shortDecay(shift0);
		now.decay1 = lane.spanDecay1 * shortDecay(shift1);
	}

	/** Adds the work of a lane's modal currents over now.span, whose values at the segment's ends stand in `now`: the rule of emf-work.ts. */
	private addSinusoidalWork(lane: Lane): void {
		const { now } = this;
		const h = now.span;
		const rotor = now.rotor;
		for (let m = 0; m < lane.modals; m++) {
			const modal = m === 0 ? lane.first : lane.second;
			const ripple = modal.rippleDrive * now.amplitude;
			const { rate, drive: constant, emfDriveRe, emfDriveIm } = modal;
			let sum = 0;
			for (let end = 0; end < 2; end++) {
				const wRe = end === 0 ? now.wRe : now.wReEnd;
				const wIm = end === 0 ? now.wIm : now.wImEnd;
				const zRe = end === 0 ? now.zRe : now.zReEnd;
				const zIm = end === 0 ? now.zIm : now.zImEnd;
				const y = m === 0 ? (end === 0 ? now.y0 : now.y0End) : end === 0 ? now.y1 : now.y1End;
				const drive = emfDriveRe * wIm + emfDriveIm * wRe; // −ε
				const driveRate = rotor * (emfDriveRe * wRe - emfDriveIm * wIm);
				const yRate = constant + ripple * zIm + drive - rate * y;
				const yCurve = ripple * now.omega * zRe + driveRate - rate * yRate;
				const f = -drive * y;
				const fRate = -driveRate * y - drive * yRate;
				const fCurve = rotor * rotor * drive * y - 2 * driveRate * yRate - drive * yCurve;
				sum += h * (0.5 * f + (end === 0 ? 0.1 : -0.1) * h * fRate + (1 / 120) * h * h * fCurve);
			}
			now.work = now.work + sum;
		}
	}

	/** Fills in what the loop does not know of a kept segment; takes it. */
	private note(segment: Segment): void {
		const { now } = this;
		const { stage } = this;
		const { emf, history, rings } = stage;
		segment.start = now.x + now.zero;
		segment.zRe = now.zRe;
		segment.zIm = now.zIm;
		if (this.sinusoidal) {
			segment.wRe = now.wRe;
			segment.wIm = now.wIm;
		}
		emf.describe(segment);
		segment.kind = this.kind;
		if (rings) {
			segment.ringTime = stage.ringTime;
			segment.ringPeriod = stage.ringPeriod;
			segment.ringEdge = stage.ringEdge;
			segment.ringKind = stage.ringKind;
		}
		history.close();
	}

	/** On to the start of the next period. */
	private nextPeriod(): void {
		const { stage } = this;
		this.period++;
		this.part = 0;
		this.offset = 0;
		if (stage.rings && this.parts > 1) stage.noteEdge(turnOn, this.period);
	}

	/** Turns to the stage's sector, duty and pieces of back-EMF. */
	private prepare(): void {
		const { circuit, emf, carrier, kind } = this.stage;
		const { duty } = carrier;
		const { pieces } = emf;
		const isNew = this.kind < 0;
		const sameStretch = kind === this.kind && pieces === this.pieces;
		if (sameStretch && duty === this.duty) return;
		this.version++;
		if (isNew) {
			this.sinusoidal = circuit.sinusoidal;
			this.now.rotor = circuit.sinusoidal ? circuit.omega : 0;
		}
		if (!sameStretch) this.table.enter(circuit, emf, kind);
		if (isNew || duty !== this.duty) this.setParts();
		this.kind = kind;
		this.pieces = pieces;
		this.duty = duty;
	}

	/** The parts of a period at the stage's duty; none where they cannot be regular. */
	private setParts(): void {
		const { stage, lengths, turnsRe, turnsIm, scratch } = this;
		const { circuit, carrier } = stage;
		const { partEnds } = carrier;
		this.parts = (partEnds[0] as number) > 0 ? carrier.partCount : 0;
		for (let part = 0; part < this.parts; part++) {
			const start = part === 0 ? 0 : (partEnds[part - 1] as number);
			const length = (partEnds[part] as number) - start;
			this.starts[part] = start;
			lengths[part] = length;
			// the work's rule holds for so long
			if (length > stage.longest) this.parts = 0;
			scratch[0] = circuit.rippleOmega * length;
			turnInPlace(scratch, 0);
			turnsRe[part] = scratch[0] as number;
			turnsIm[part] = scratch[1] as number;
			if (circuit.sinusoidal) {
				scratch[0] = circuit.omega * length;
				turnInPlace(scratch, 0);
				this.rotorTurnsRe[part] = scratch[0] as number;
				this.rotorTurnsIm[part] = scratch[1] as number;
			}
			this.highTies[part] = carrier.tieOfHigh(part, open);
			this.lowTies[part] = carrier.tieOfLow(part, open);
		}
	}
}

/** Rate of a modal current, A/s, from its decaying part and the phasors of ripple and electrical angle. */
const rateOf = (
	{ slope, rate, gainRe, gainIm, emfRe, emfIm }: LaneModal,
	{ omega, rotor }: PeriodState,
	fading: number,
	zRe: number,
	zIm: number,
	wRe: number,
	wIm: number,
): number => slope + omega * (gainRe * zRe - gainIm * zIm) + rotor * (emfRe * wRe - emfIm * wIm) - rate * fading;
