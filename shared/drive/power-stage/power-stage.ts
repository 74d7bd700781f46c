import cosine from '@stdlib/math-base-special-cos';
import sine from '@stdlib/math-base-special-sin';
import { realZero } from '../../maths/real-zero.ts';
import { BackEmf } from '../back-emf.ts';
import { type Circuit, radian } from '../circuit.ts';
import { highPhase, lowPhase, openPhase } from '../commutation-table.ts';
import { type ConductionMode, freeTie, highDiode, isDiode, lowDiode, open, type Tie } from '../conduction-mode.ts';
import type { Drive } from '../drive.ts';
import type { PeriodState } from '../regular/period-state.ts';
import { RegularPeriods } from '../regular/regular-periods.ts';
import type { Segment } from '../segment.ts';
import { SegmentHistory } from '../segment-history.ts';
import { DiodeEvents, eventTolerance } from './diode-events.ts';
import { addEmfWork } from './emf-work.ts';
import { type Edge, noEdge, type PeriodPlace, PwmCarrier, turnOn } from './pwm-carrier.ts';
import { SegmentInHand } from './segment-in-hand.ts';

/** What ended a segment. */
type Boundary = 'gate' | 'corner' | 'limit' | 'event' | 'pause';

/**
 * Motor and inverter of one drive, carried forward exactly from event to event:
 * gate edges, corners of the back-EMF, commutations, and diodes that start or
 * stop. `trace` works out the next segment, `cut` shortens it, `commit` takes
 * it and switches what its end switches.
 */
export class PowerStage {
	readonly carrier = new PwmCarrier();
	readonly emf = new BackEmf();
	readonly history = new SegmentHistory();
	/** The short way. */
	readonly regular = new RegularPeriods(this);
	circuit!: Circuit;

	/** Sector kind 0…5. */
	kind = 0;
	/** Winding currents, A, into the motor. */
	iA = realZero;
	iB = realZero;
	iC = realZero;
	/** Phasors of bus ripple and electrical angle. */
	zRe = realZero;
	zIm = realZero;
	wRe = realZero;
	wIm = realZero;
	/** ∫ Σ e_k i_k dt, J, since it was last set to 0. */
	work = realZero;
	mode!: ConductionMode;
	private readonly ties: [Tie, Tie, Tie] = [open, open, open];
	/** The short way led here, or a commutation: ties are worked out when the careful way goes on. */
	private untied = false;
	/** Whether edges ring; and of the latest edge its time (s), period, 0 turn-on or 1 turn-off, and the sector kind then. */
	rings = false;
	ringTime = realZero;
	ringPeriod = 0;
	ringEdge = 0;
	ringKind = 0;

	/** What ends the segment in hand. */
	boundary: Boundary = 'gate';
	private readonly hand = new SegmentInHand();
	private readonly events = new DiodeEvents(this.hand);
	/** Longest segment, s: so short that nothing swings to and fro in it unseen, and that a quadrature gives the work (sinusoidal back-EMF). */
	longest = realZero;
	private stalled = 0;

	/** What `mark` keeps. */
	private readonly marked = {
		count: 0,
		carrier: new PwmCarrier(),
		iA: realZero,
		iB: realZero,
		iC: realZero,
		zRe: realZero,
		zIm: realZero,
		wRe: realZero,
		wIm: realZero,
		work: realZero,
		ringTime: realZero,
		ringPeriod: 0,
		ringEdge: 0,
		ringKind: 0,
	};

	/**
	 * At rest at t = 0: θ = 30°, sector 0, no currents.
	 * @param lookBack how long the history must reach back, s
	 */
	start(circuit: Circuit, drive: Drive, duty: number, lookBack: number): void {
		this.circuit = circuit;
		this.hand.circuit = circuit;
		this.carrier.start(circuit, drive, duty);
		this.emf.start(circuit, drive);
		this.history.clear(lookBack);
		this.regular.reset();
		this.kind = 0;
		this.iA = this.iB = this.iC = 0;
		this.work = 0;
		this.stalled = 0;
		const ripple = 2 * Math.PI * drive.supply.ripplePhase;
		this.zRe = cosine(ripple);
		this.zIm = sine(ripple);
		this.wRe = cosine(30 * radian);
		this.wIm = sine(30 * radian);
		let fastest = circuit.rippleAmplitude === 0 ? 0 : circuit.rippleOmega;
		for (let k = 0; k < 3; k++) {
			const r = (circuit.resistance[k] as number) + circuit.switchResistance + circuit.shuntResistance;
			fastest = Math.max(fastest, r / (circuit.inductance[k] as number));
		}
		this.longest = circuit.sinusoidal ? 0.25 / Math.max(fastest, circuit.omega) : 1 / fastest;
		this.rings = drive.noise.ringAmplitude !== 0;
		this.ringTime = -Infinity;
		this.ringPeriod = this.ringEdge = this.ringKind = 0;
		this.retie();
	}

	/** Seconds since t = 0. */
	get time(): number {
		return this.carrier.time;
	}

	/** The segment in hand, and its length, s. */
	get segment(): Segment {
		return this.hand.segment;
	}

	get length(): number {
		return this.hand.length;
	}

	/** Works out the segment from now to the nearest of `limit` (s), gate edge, corner and diode event. */
	trace(limit: number): void {
		if (this.untied) this.retie();
		const { circuit, mode, emf, hand, carrier } = this;
		const { periodStart, offset } = carrier;
		let end = carrier.gateEnd;
		this.boundary = 'gate';
		if (emf.nextCorner - periodStart < end) {
			end = emf.nextCorner - periodStart;
			this.boundary = 'corner';
		}
		if (limit - periodStart < end) {
			end = limit - periodStart;
			this.boundary = 'limit';
		}
		let h = end - offset;
		if (h > this.longest) {
			h = this.longest;
			this.boundary = 'pause';
		}
		if (h <= 0) {
			hand.length = 0;
			return;
		}

		const segment = this.history.open(mode);
		hand.segment = segment;
		hand.mode = mode;
		segment.start = periodStart + offset;
		segment.zRe = this.zRe;
		segment.zIm = this.zIm;
		segment.wRe = this.wRe;
		segment.wIm = this.wIm;
		segment.ringTime = this.ringTime;
		segment.ringPeriod = this.ringPeriod;
		segment.ringEdge = this.ringEdge;
		segment.ringKind = this.ringKind;
		segment.kind = this.kind;

		emf.describe(segment);
		const { emfA: eA, emfB: eB, emfC: eC, slopeA: sA, slopeB: sB, slopeC: sC } = segment;

		// y_m(s) = A + B s + forced sinusoids + D e^{−λs}
		const { iA, iB, iC } = this;
		const lA = (circuit.inductance[0] as number) * iA;
		const lB = (circuit.inductance[1] as number) * iB;
		const lC = (circuit.inductance[2] as number) * iC;
		let a0 = 0;
		let b0 = 0;
		let d0 = 0;
		let a1 = 0;
		let b1 = 0;
		let d1 = 0;
		if (mode.modalCount > 0) {
			const f0 = mode.drive0 - (mode.uA0 * eA + mode.uB0 * eB + mode.uC0 * eC);
			b0 = -(mode.uA0 * sA + mode.uB0 * sB + mode.uC0 * sC) / mode.rate0;
			a0 = (f0 - b0) / mode.rate0;
			hand.y0Start = mode.uA0 * lA + mode.uB0 * lB + mode.uC0 * lC;
			d0 = hand.y0Start - a0 - (mode.rippleRe0 * this.zIm + mode.rippleIm0 * this.zRe);
			if (mode.modalCount > 1) {
				const f1 = mode.drive1 - (mode.uA1 * eA + mode.uB1 * eB + mode.uC1 * eC);
				b1 = -(mode.uA1 * sA + mode.uB1 * sB + mode.uC1 * sC) / mode.rate1;
				a1 = (f1 - b1) / mode.rate1;
				hand.y1Start = mode.uA1 * lA + mode.uB1 * lB + mode.uC1 * lC;
				d1 = hand.y1Start - a1 - (mode.rippleRe1 * this.zIm + mode.rippleIm1 * this.zRe);
			} else {
				hand.y1Start = 0;
			}
			if (circuit.sinusoidal) {
				d0 -= mode.emfRe0 * this.wIm + mode.emfIm0 * this.wRe;
				d1 -= mode.emfRe1 * this.wIm + mode.emfIm1 * this.wRe;
			}
		} else {
			hand.y0Start = hand.y1Start = 0;
		}
		segment.a0 = a0;
		segment.b0 = b0;
		segment.d0 = d0;
		segment.a1 = a1;
		segment.b1 = b1;
		segment.d1 = d1;

		hand.length = h;
		hand.workOutEnd();
		if (this.events.find(this.ties)) this.boundary = 'event';
	}

	/** Shortens the segment in hand to end at `time` (s), before any of its boundaries. */
	cut(time: number): void {
		const { hand, carrier } = this;
		this.boundary = 'limit';
		hand.length = Math.max(0, time - carrier.periodStart - carrier.offset);
		if (hand.length > 0) hand.workOutEnd();
	}

	/** The limit that the segment in hand was traced to no longer holds. */
	release(): void {
		if (this.boundary === 'limit') this.boundary = 'pause';
	}

	/** Passes the corners that it stands on. */
	turnCorners(): void {
		const { emf, carrier } = this;
		while (emf.nextCorner - carrier.periodStart <= carrier.offset) emf.pass(emf.nextCorner);
	}

	/** Notes whether it stands at `limit` (s). */
	noteLimit(limit: number): void {
		if (this.time >= limit) this.boundary = 'limit';
	}

	/** Takes the segment in hand, then switches whatever its end switches. */
	commit(): void {
		const { hand, carrier, emf } = this;
		const { length } = hand;
		if (length > 0) {
			addEmfWork(this, hand);
			this.history.close();
			const { mode, y0End, y1End } = hand;
			this.iA = mode.uA0 * y0End + mode.uA1 * y1End;
			this.iB = mode.uB0 * y0End + mode.uB1 * y1End;
			this.iC = mode.uC0 * y0End + mode.uC1 * y1End;
			this.zRe = hand.zReEnd;
			this.zIm = hand.zImEnd;
			this.wRe = hand.wReEnd;
			this.wIm = hand.wImEnd;
		}
		switch (this.boundary) {
			case 'gate': {
				const edge = carrier.pass();
				if (edge !== noEdge) this.noteEdge(edge, carrier.periodIndex);
				this.retie();
				break;
			}
			case 'corner':
				carrier.offset = emf.nextCorner - carrier.periodStart;
				emf.pass(emf.nextCorner);
				break;
			case 'event':
				carrier.offset += length;
				this.passEvent(length);
				break;
			default:
				carrier.offset += length;
		}
	}

	/** The three winding currents (A) `s` seconds into the segment in hand. */
	currentsAt(s: number): [number, number, number] {
		const { hand } = this;
		hand.goTo(s);
		const { mode, y0, y1 } = hand;
		return [mode.uA0 * y0 + mode.uA1 * y1, mode.uB0 * y0 + mode.uB1 * y1, mode.uC0 * y0 + mode.uC1 * y1];
	}

	/** Hands its state over to the short way. */
	launch(state: PeriodState): void {
		const high = highPhase[this.kind] as number;
		const low = lowPhase[this.kind] as number;
		const open = openPhase[this.kind] as number;
		// not by currentOf: its result would be put on the heap
		const { iA, iB, iC } = this;
		state.high = high === 0 ? iA : high === 1 ? iB : iC;
		state.low = low === 0 ? iA : low === 1 ? iB : iC;
		state.open = open === 0 ? iA : open === 1 ? iB : iC;
		state.zRe = this.zRe;
		state.zIm = this.zIm;
		state.wRe = this.wRe;
		state.wIm = this.wIm;
		state.work = this.work;
	}

	/** Takes it back at a place in a period. */
	land(place: PeriodPlace, state: PeriodState): void {
		const high = highPhase[this.kind] as number;
		const low = lowPhase[this.kind] as number;
		this.iA = high === 0 ? state.high : low === 0 ? state.low : state.open;
		this.iB = high === 1 ? state.high : low === 1 ? state.low : state.open;
		this.iC = high === 2 ? state.high : low === 2 ? state.low : state.open;
		this.zRe = state.zRe;
		this.zIm = state.zIm;
		this.wRe = state.wRe;
		this.wIm = state.wIm;
		this.work = state.work;
		this.untied = true;
		this.boundary = 'pause';
		this.carrier.moveTo(place);
	}

	private currentOf(k: number): number {
		return k === 0 ? this.iA : k === 1 ? this.iB : this.iC;
	}

	/** Remembers the present instant, to come back to it before the next corner. */
	mark(): void {
		const { marked } = this;
		marked.count = this.history.count;
		marked.carrier.copyFrom(this.carrier);
		marked.iA = this.iA;
		marked.iB = this.iB;
		marked.iC = this.iC;
		marked.zRe = this.zRe;
		marked.zIm = this.zIm;
		marked.wRe = this.wRe;
		marked.wIm = this.wIm;
		marked.work = this.work;
		marked.ringTime = this.ringTime;
		marked.ringPeriod = this.ringPeriod;
		marked.ringEdge = this.ringEdge;
		marked.ringKind = this.ringKind;
	}

	/** Back to the instant that was marked. */
	rewind(): void {
		const { marked } = this;
		this.history.takeBack(marked.count);
		this.carrier.copyFrom(marked.carrier);
		this.iA = marked.iA;
		this.iB = marked.iB;
		this.iC = marked.iC;
		this.zRe = marked.zRe;
		this.zIm = marked.zIm;
		this.wRe = marked.wRe;
		this.wIm = marked.wIm;
		this.work = marked.work;
		this.ringTime = marked.ringTime;
		this.ringPeriod = marked.ringPeriod;
		this.ringEdge = marked.ringEdge;
		this.ringKind = marked.ringKind;
		this.boundary = 'pause';
		this.untied = true;
	}

	/** Turns to the next sector, at once. */
	commutate(): void {
		this.kind = this.kind === 5 ? 0 : this.kind + 1;
		this.untied = true;
	}

	copyFrom(other: PowerStage): void {
		this.regular.join(other.regular);
		this.circuit = other.circuit;
		this.hand.circuit = other.circuit;
		this.carrier.copyFrom(other.carrier);
		this.emf.copyFrom(other.emf);
		this.history.copyFrom(other.history);
		this.kind = other.kind;
		this.iA = other.iA;
		this.iB = other.iB;
		this.iC = other.iC;
		this.work = other.work;
		this.mode = other.mode;
		this.untied = other.untied;
		for (let k = 0; k < 3; k++) this.ties[k] = other.ties[k] as Tie;
		this.zRe = other.zRe;
		this.zIm = other.zIm;
		this.wRe = other.wRe;
		this.wIm = other.wIm;
		this.longest = other.longest;
		this.rings = other.rings;
		this.ringTime = other.ringTime;
		this.ringPeriod = other.ringPeriod;
		this.ringEdge = other.ringEdge;
		this.ringKind = other.ringKind;
		this.stalled = 0;
	}

	/** Switches what the diode event switches. */
	private passEvent(h: number): void {
		this.stalled = h < eventTolerance ? this.stalled + 1 : 0;
		if (this.stalled > 20) throw new Error('diode events follow each other without end');
		const { phase: k, tie } = this.events;
		if (tie === open) {
			// the current that has come to zero is put there exactly, the others made to add up
			if (this.mode.conducting === 3) {
				if (k === 0) {
					this.iA = 0;
					this.iC = -this.iB;
				} else if (k === 1) {
					this.iB = 0;
					this.iC = -this.iA;
				} else {
					this.iC = 0;
					this.iB = -this.iA;
				}
				this.ties[k] = open;
			} else {
				this.iA = this.iB = this.iC = 0;
				for (let j = 0; j < 3; j++) if (isDiode(this.ties[j] as Tie)) this.ties[j] = open;
			}
		} else if (this.mode.conducting === 0) {
			this.startPair();
		} else {
			this.ties[k] = tie;
		}
		// one that stopped the moment it started was pushed out by rounding, or is on its way in: it may not start again here
		this.settle(tie === open && h < eventTolerance ? k : -1);
	}

	/** With nothing tied: the phases of the largest and the smallest EMF start to conduct together. */
	private startPair(): void {
		let most = 0;
		let least = 0;
		for (let k = 1; k < 3; k++) {
			if (this.emfNow(k) > this.emfNow(most)) most = k;
			if (this.emfNow(k) < this.emfNow(least)) least = k;
		}
		this.ties[most] = highDiode;
		this.ties[least] = lowDiode;
	}

	private emfNow(k: number): number {
		const { circuit, emf } = this;
		if (circuit.sinusoidal) return (circuit.emfRe[k] as number) * this.wIm + (circuit.emfIm[k] as number) * this.wRe;
		return (emf.level[k] as number) + (emf.slope[k] as number) * (this.time - (emf.zero[k] as number));
	}

	/** Ties every terminal by its switches, else by the sign of its current, then lets diodes start that must. */
	private retie(): void {
		this.untied = false;
		const { carrier } = this;
		const high = highPhase[this.kind] as number;
		const low = lowPhase[this.kind] as number;
		for (let k = 0; k < 3; k++) {
			let tie = freeTie(this.currentOf(k));
			if (k === high) tie = carrier.tieOfHigh(carrier.part, tie);
			else if (k === low) tie = carrier.tieOfLow(carrier.part, tie);
			this.ties[k] = tie;
		}
		this.settle();
	}

	/** Starts the diode of every open terminal that lies outside the rails, the farthest out first. */
	private settle(barred = -1): void {
		const { ties, circuit } = this;
		for (let round = 0; round < 4; round++) {
			const mode = circuit.mode(ties[0], ties[1], ties[2]);
			this.mode = mode;
			if (mode.conducting === 3) return;
			const eA = this.emfNow(0);
			const eB = this.emfNow(1);
			const eC = this.emfNow(2);
			const ripple = circuit.rippleAmplitude * this.zIm;
			if (mode.conducting === 0) {
				const spread = Math.max(eA, eB, eC) - Math.min(eA, eB, eC);
				if (spread <= circuit.voltage + ripple + 2 * circuit.diodeDrop) return;
				this.startPair();
				continue;
			}
			const lA = (circuit.inductance[0] as number) * this.iA;
			const lB = (circuit.inductance[1] as number) * this.iB;
			const lC = (circuit.inductance[2] as number) * this.iC;
			const y0 = mode.uA0 * lA + mode.uB0 * lB + mode.uC0 * lC;
			const y1 = mode.uA1 * lA + mode.uB1 * lB + mode.uC1 * lC;
			const neutral =
				mode.neutral +
				mode.neutralRipple * ripple +
				mode.neutralEmfA * eA +
				mode.neutralEmfB * eB +
				mode.neutralEmfC * eC +
				mode.neutral0 * y0 +
				mode.neutral1 * y1;
			const top = circuit.voltage + ripple + circuit.diodeDrop;
			const bottom = mode.lowRail0 * y0 + mode.lowRail1 * y1 - circuit.diodeDrop;
			let worst = 1e-9; // V; rounding does not start a diode
			let phase = -1;
			let diode: Tie = open;
			for (let k = 0; k < 3; k++) {
				if (ties[k] !== open || k === barred) continue;
				const v = neutral + (k === 0 ? eA : k === 1 ? eB : eC);
				if (v - top > worst) {
					worst = v - top;
					phase = k;
					diode = highDiode;
				}
				if (bottom - v > worst) {
					worst = bottom - v;
					phase = k;
					diode = lowDiode;
				}
			}
			if (phase < 0) return;
			ties[phase] = diode;
		}
	}

	/** Passes an edge of the chopped switch in a period at the present duty. */
	noteEdge(edge: Edge, period: number): void {
		const { carrier, circuit } = this;
		const start = (period - carrier.phase) * circuit.period;
		this.ringTime = edge === turnOn ? start : start + (carrier.partEnds[0] as number);
		this.ringPeriod = period;
		this.ringEdge = edge;
		this.ringKind = this.kind;
	}
}
