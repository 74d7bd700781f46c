import cosine from '@stdlib/math-base-special-cos';
import sine from '@stdlib/math-base-special-sin';
import { decayInPlace } from '../maths/decay.ts';
import { realZero } from '../maths/real-zero.ts';
import { turnInPlace } from '../maths/turn.ts';
import { BackEmf } from './back-emf.ts';
import { type Circuit, radian } from './circuit.ts';
import { highPhase, lowPhase } from './commutation-table.ts';
import { type ConductionMode, highDiode, highSwitch, lowDiode, lowSwitch, open, type Tie } from './conduction-mode.ts';
import type { Chopping, Drive } from './drive.ts';
import { RegularPeriods } from './regular/regular-periods.ts';
import type { Segment } from './segment.ts';
import { SegmentHistory } from './segment-history.ts';

/** Part of the PWM period: on-window, off-window, and of a complementary off-window the part with the low switch closed. */
type WindowPart = 'on' | 'off' | 'lowClosed' | 'deadEnd';

/** What ended a segment. */
type Boundary = 'gate' | 'corner' | 'limit' | 'event' | 'pause';

/** Numbers on their way through decayInPlace and turnInPlace. */
const cells = new Float64Array(2);

/** A diode event is placed to within this, s: far inside the 1 ns that the model asks for. */
const eventTolerance = 1e-13;

/**
 * A Newton step shorter than this (s) is the last: the error it leaves is about
 * step²/(2τ), with τ the time in which the margin bends, here below 10⁻¹² s for
 * any τ above 0.05 µs.
 */
const lastStep = 3e-10;

/** A margin that dips below zero by less than this (V or A) and comes back is not an event. */
const shallow = 1e-9;

/**
 * A margin this little below zero (V or A) at a segment's end is rounding: a
 * diode that started an instant ago may seem to reverse at a corner of the
 * back-EMF that falls on the same instant. If it is real, the next segment shows it.
 */
const rounding = 1e-12;

/**
 * Motor and inverter of one drive, carried forward exactly from event to event:
 * gate edges, corners of the back-EMF, commutations, and diodes that start or
 * stop. `trace` works out the next segment, `cut` shortens it, `commit` takes
 * it and switches what its end switches.
 */
export class PowerStage {
	readonly emf = new BackEmf();
	readonly history = new SegmentHistory();

	/** Carrier: index and start (s) of the present PWM period, offset in it (s), its duty, and the duty of the next. */
	periodIndex = 0;
	periodStart = realZero;
	offset = realZero;
	duty = realZero;
	nextDuty = realZero;
	/** Sector kind 0…5. */
	kind = 0;
	/** Winding currents, A, into the motor. */
	iA = realZero;
	iB = realZero;
	iC = realZero;
	/** ∫ Σ e_k i_k dt, J, since it was last set to 0. */
	work = realZero;
	mode!: ConductionMode;
	/** The segment in hand, its length (s), and what ends it. */
	segment!: Segment;
	length = realZero;
	boundary: Boundary = 'gate';

	circuit!: Circuit;
	/** Whole regular periods in one go. */
	readonly regular = new RegularPeriods(this);
	private chopping: Chopping = 'high-side';
	private deadTime = realZero;
	carrierPhase = realZero;
	private part: WindowPart = 'on';
	private gateEnd = realZero;
	private readonly ties: [Tie, Tie, Tie] = [open, open, open];
	/** Parts of a whole period at the present duty, in their order. */
	private partNames: readonly WindowPart[] = [];
	/** What `mark` keeps. */
	private readonly marked = new Float64Array(14);
	private markedCount = 0;
	/** Whole periods were run in one go: ties are worked out when the careful way goes on from here. */
	private untied = false;
	/** Phasors of bus ripple and electrical angle, now. */
	zRe = realZero;
	zIm = realZero;
	wRe = realZero;
	wIm = realZero;
	/** The same at the end of the segment in hand, and the modal currents at both ends. */
	private zReEnd = realZero;
	private zImEnd = realZero;
	private wReEnd = realZero;
	private wImEnd = realZero;
	private y0 = realZero;
	private y1 = realZero;
	private y0End = realZero;
	private y1End = realZero;
	/** Longest segment where the work's integral is a quadrature (sinusoidal back-EMF), s. */
	longest = realZero;
	/** Whether edges ring. */
	rings = false;
	ringTime = realZero;
	ringPeriod = 0;
	ringEdge = 0;
	ringKind = 0;
	/** Coefficients of the margin being followed to zero. */
	private mConstant = realZero;
	private mRipple = realZero;
	private mEmfA = realZero;
	private mEmfB = realZero;
	private mEmfC = realZero;
	private m0 = realZero;
	private m1 = realZero;
	/** Value and slope of that margin where last evaluated. */
	private mValue = realZero;
	/** State where it was evaluated: time into the segment (s), phasors, modal currents. */
	private sAt = realZero;
	private zReAt = realZero;
	private zImAt = realZero;
	private wReAt = realZero;
	private wImAt = realZero;
	private y0At = realZero;
	private y1At = realZero;
	private mSlope = realZero;
	/** Which phase's which diode the event is about. */
	private eventPhase = -1;
	private eventTie: Tie = open;
	private stalled = 0;

	/**
	 * At rest at t = 0: θ = 30°, sector 0, no currents.
	 * @param lookBack how long the history must reach back, s
	 */
	start(circuit: Circuit, drive: Drive, duty: number, lookBack: number): void {
		this.circuit = circuit;
		this.chopping = drive.inverter.chopping;
		this.deadTime = drive.inverter.deadTime;
		this.carrierPhase = drive.operation.pwmPhase;
		this.emf.start(circuit, drive);
		this.history.clear(lookBack);
		this.regular.reset();
		this.periodIndex = 0;
		this.periodStart = -this.carrierPhase * circuit.period;
		this.offset = this.carrierPhase * circuit.period;
		this.duty = duty;
		this.nextDuty = duty;
		this.kind = 0;
		this.iA = this.iB = this.iC = 0;
		this.work = 0;
		this.stalled = 0;
		const ripple = 2 * Math.PI * drive.supply.ripplePhase;
		this.zRe = cosine(ripple);
		this.zIm = sine(ripple);
		this.wRe = cosine(30 * radian);
		this.wIm = sine(30 * radian);
		this.longest = Infinity;
		if (circuit.sinusoidal) {
			let fastest = Math.max(circuit.omega, circuit.rippleOmega);
			for (let k = 0; k < 3; k++) {
				const r = (circuit.resistance[k] as number) + circuit.switchResistance + circuit.shuntResistance;
				fastest = Math.max(fastest, r / (circuit.inductance[k] as number));
			}
			this.longest = 0.25 / fastest;
		}
		this.rings = drive.noise.ringAmplitude !== 0;
		this.ringTime = -Infinity;
		this.ringPeriod = this.ringEdge = this.ringKind = 0;
		this.part = 'on';
		const onEnd = this.onEnd();
		if (this.offset < onEnd) {
			this.gateEnd = onEnd;
		} else {
			this.enterOff();
			while (this.gateEnd <= this.offset && this.gateEnd < circuit.period) this.nextOffPart();
		}
		this.retie();
	}

	/** Seconds since t = 0. */
	get time(): number {
		return this.periodStart + this.offset;
	}

	/** End of the present period's on-window, as an offset, s. */
	onEnd(): number {
		return this.duty >= 1 ? this.circuit.period : this.duty * this.circuit.period;
	}

	/** Works out the segment from now to the nearest of `limit` (s), gate edge, corner and diode event. */
	trace(limit: number): void {
		if (this.untied) this.retie();
		const { circuit, mode, emf } = this;
		const time = this.periodStart + this.offset;
		let end = this.gateEnd;
		this.boundary = 'gate';
		if (emf.nextCorner - this.periodStart < end) {
			end = emf.nextCorner - this.periodStart;
			this.boundary = 'corner';
		}
		if (limit - this.periodStart < end) {
			end = limit - this.periodStart;
			this.boundary = 'limit';
		}
		let h = end - this.offset;
		if (h > this.longest) {
			h = this.longest;
			this.boundary = 'pause';
		}
		if (h <= 0) {
			this.length = 0;
			return;
		}

		const segment = this.history.open(mode);
		this.segment = segment;
		segment.start = time;
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
			this.y0 = mode.uA0 * lA + mode.uB0 * lB + mode.uC0 * lC;
			d0 = this.y0 - a0 - (mode.rippleRe0 * this.zIm + mode.rippleIm0 * this.zRe);
			if (mode.modalCount > 1) {
				const f1 = mode.drive1 - (mode.uA1 * eA + mode.uB1 * eB + mode.uC1 * eC);
				b1 = -(mode.uA1 * sA + mode.uB1 * sB + mode.uC1 * sC) / mode.rate1;
				a1 = (f1 - b1) / mode.rate1;
				this.y1 = mode.uA1 * lA + mode.uB1 * lB + mode.uC1 * lC;
				d1 = this.y1 - a1 - (mode.rippleRe1 * this.zIm + mode.rippleIm1 * this.zRe);
			} else {
				this.y1 = 0;
			}
			if (circuit.sinusoidal) {
				d0 -= mode.emfRe0 * this.wIm + mode.emfIm0 * this.wRe;
				d1 -= mode.emfRe1 * this.wIm + mode.emfIm1 * this.wRe;
			}
		} else {
			this.y0 = this.y1 = 0;
		}
		segment.a0 = a0;
		segment.b0 = b0;
		segment.d0 = d0;
		segment.a1 = a1;
		segment.b1 = b1;
		segment.d1 = d1;

		this.length = h;
		this.endHere();
		this.findEvent();
	}

	/** Shortens the segment in hand to end at `time` (s), before any of its boundaries. */
	cut(time: number): void {
		const h = Math.max(0, time - this.periodStart - this.offset);
		this.boundary = 'limit';
		this.eventPhase = -1;
		this.length = h;
		if (h > 0) this.endHere();
	}

	/** The limit that the segment in hand was traced to no longer holds. */
	release(): void {
		if (this.boundary === 'limit') this.boundary = 'pause';
	}

	/** Takes the segment in hand, then switches whatever its end switches. */
	commit(): void {
		const h = this.length;
		if (h > 0) {
			this.addWork(h);
			this.history.close();
			const { mode } = this;
			this.iA = mode.uA0 * this.y0End + mode.uA1 * this.y1End;
			this.iB = mode.uB0 * this.y0End + mode.uB1 * this.y1End;
			this.iC = mode.uC0 * this.y0End + mode.uC1 * this.y1End;
			this.zRe = this.zReEnd;
			this.zIm = this.zImEnd;
			this.wRe = this.wReEnd;
			this.wIm = this.wImEnd;
		}
		switch (this.boundary) {
			case 'gate':
				this.offset = this.gateEnd;
				this.passGate();
				break;
			case 'corner':
				this.offset = this.emf.nextCorner - this.periodStart;
				this.emf.pass(this.emf.nextCorner);
				break;
			case 'event':
				this.offset += h;
				this.passEvent(h);
				break;
			default:
				this.offset += h;
		}
	}

	/** The three winding currents (A) `s` seconds into the segment in hand. */
	currentsAt(s: number): [number, number, number] {
		const { mode } = this;
		this.evaluate(s);
		const { y0At: y0, y1At: y1 } = this;
		return [mode.uA0 * y0 + mode.uA1 * y1, mode.uB0 * y0 + mode.uB1 * y1, mode.uC0 * y0 + mode.uC1 * y1];
	}

	/** Lengths of the parts of a whole period at the present duty, s, into `lengths`; their number, 0 without an on-window. */
	partLengths(lengths: Float64Array): number {
		const { period } = this.circuit;
		const onEnd = this.onEnd();
		lengths[0] = onEnd;
		if (onEnd <= 0) return 0;
		if (onEnd >= period) {
			this.partNames = ['on'];
			return 1;
		}
		const lowFrom = onEnd + this.deadTime;
		const lowTo = period - this.deadTime;
		if (this.chopping !== 'complementary' || lowFrom >= lowTo) {
			this.partNames = ['on', 'off'];
			lengths[1] = period - onEnd;
			return 2;
		}
		if (this.deadTime === 0) {
			this.partNames = ['on', 'lowClosed'];
			lengths[1] = period - onEnd;
			return 2;
		}
		this.partNames = ['on', 'off', 'lowClosed', 'deadEnd'];
		lengths[1] = this.deadTime;
		lengths[2] = lowTo - lowFrom;
		lengths[3] = this.deadTime;
		return 4;
	}

	/** Tie of the + and of the − phase by their switches in a part of the period; `open` where both are off. */
	tieOfHighIn(part: number): Tie {
		return this.tieOfHigh(this.partNames[part] as WindowPart, open);
	}

	tieOfLowIn(part: number): Tie {
		return this.tieOfLow(this.partNames[part] as WindowPart, open);
	}

	/** After `periods` whole periods from the present one's start; `state`: the three currents (A), ripple phasor, work done (J), rotor phasor. */
	land(periods: number, state: Float64Array): void {
		this.iA = state[0] as number;
		this.iB = state[1] as number;
		this.iC = state[2] as number;
		this.zRe = state[3] as number;
		this.zIm = state[4] as number;
		this.work += state[5] as number;
		this.wRe = state[6] as number;
		this.wIm = state[7] as number;
		this.boundary = 'gate';
		this.enterPeriod(this.periodIndex + periods, this.duty < 1);
		this.untied = true;
	}

	/** Remembers the start of the present period, to come back to it. */
	mark(): void {
		const { marked } = this;
		marked[0] = this.periodIndex;
		marked[1] = this.duty;
		marked[2] = this.iA;
		marked[3] = this.iB;
		marked[4] = this.iC;
		marked[5] = this.work;
		marked[6] = this.ringTime;
		this.markedCount = this.history.count;
		marked[7] = this.ringPeriod;
		marked[8] = this.ringEdge;
		marked[9] = this.ringKind;
		marked[10] = this.zRe;
		marked[11] = this.zIm;
		marked[12] = this.wRe;
		marked[13] = this.wIm;
	}

	/** Back to the start of the period that was marked. */
	rewind(): void {
		const { marked } = this;
		const nextDuty = this.nextDuty;
		this.nextDuty = marked[1] as number;
		this.enterPeriod((marked[0] as number) | 0, false);
		this.nextDuty = nextDuty;
		this.iA = marked[2] as number;
		this.iB = marked[3] as number;
		this.iC = marked[4] as number;
		this.work = marked[5] as number;
		this.ringTime = marked[6] as number;
		this.history.takeBack(this.markedCount);
		this.ringPeriod = (marked[7] as number) | 0;
		this.ringEdge = (marked[8] as number) | 0;
		this.ringKind = (marked[9] as number) | 0;
		this.zRe = marked[10] as number;
		this.zIm = marked[11] as number;
		this.wRe = marked[12] as number;
		this.wIm = marked[13] as number;
		this.boundary = 'gate';
		this.retie();
	}

	/** Turns to the next sector, at once. */
	commutate(): void {
		this.kind = this.kind === 5 ? 0 : this.kind + 1;
		this.retie();
	}

	copyFrom(other: PowerStage): void {
		this.regular.reset();
		this.circuit = other.circuit;
		this.emf.copyFrom(other.emf);
		this.history.copyFrom(other.history);
		this.chopping = other.chopping;
		this.deadTime = other.deadTime;
		this.carrierPhase = other.carrierPhase;
		this.periodIndex = other.periodIndex;
		this.periodStart = other.periodStart;
		this.offset = other.offset;
		this.duty = other.duty;
		this.nextDuty = other.nextDuty;
		this.kind = other.kind;
		this.iA = other.iA;
		this.iB = other.iB;
		this.iC = other.iC;
		this.work = other.work;
		this.mode = other.mode;
		this.untied = other.untied;
		this.part = other.part;
		this.gateEnd = other.gateEnd;
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

	// In the hot methods numbers travel in fields: as arguments or results of a
	// call that the compiler does not inline, each would be put on the heap.

	/** Works out the state at the end of the segment in hand, `length` seconds from its start. */
	private endHere(): void {
		const { circuit, mode, segment, length: h } = this;
		segment.length = h;
		this.sAt = h;
		this.turnPhasors();
		this.zReEnd = this.zReAt;
		this.zImEnd = this.zImAt;
		this.wReEnd = this.wReAt;
		this.wImEnd = this.wImAt;
		this.y0End = this.y1End = 0;
		if (mode.modalCount === 0) return;
		cells[0] = mode.rate0 * h;
		decayInPlace(cells, 0);
		const decay0 = cells[0] as number;
		segment.decay0 = decay0;
		this.y0End =
			segment.a0 + segment.b0 * h + mode.rippleRe0 * this.zImEnd + mode.rippleIm0 * this.zReEnd + segment.d0 * decay0;
		if (mode.modalCount > 1) {
			cells[0] = mode.rate1 * h;
			decayInPlace(cells, 0);
			const decay1 = cells[0] as number;
			segment.decay1 = decay1;
			this.y1End =
				segment.a1 + segment.b1 * h + mode.rippleRe1 * this.zImEnd + mode.rippleIm1 * this.zReEnd + segment.d1 * decay1;
		}
		if (circuit.sinusoidal) {
			this.y0End += mode.emfRe0 * this.wImEnd + mode.emfIm0 * this.wReEnd;
			this.y1End += mode.emfRe1 * this.wImEnd + mode.emfIm1 * this.wReEnd;
		}
	}

	/** Shortens the segment in hand to its first diode event, if it has one. */
	private findEvent(): void {
		this.eventPhase = -1;
		const { mode, ties } = this;
		for (let k = 0; k < 3; k++) {
			const tie = ties[k] as Tie;
			if (tie === highDiode || tie === lowDiode) {
				this.watchCurrent(k, tie === lowDiode ? 1 : -1);
				this.follow(k, open, 0);
			}
		}
		if (mode.conducting === 0) {
			this.watchPairs();
			return;
		}
		// of an open terminal the end is looked at first; well inside the rails there, nothing dips out in between
		const { circuit } = this;
		const near = 1e-3 * circuit.voltage;
		const ripple = circuit.rippleAmplitude * this.zImEnd;
		const eA = this.emfAtEnd(0);
		const eB = this.emfAtEnd(1);
		const eC = this.emfAtEnd(2);
		const neutral =
			mode.neutral +
			mode.neutralRipple * ripple +
			mode.neutralEmfA * eA +
			mode.neutralEmfB * eB +
			mode.neutralEmfC * eC +
			mode.neutral0 * this.y0End;
		const top = circuit.voltage + ripple + circuit.diodeDrop;
		const bottom = mode.lowRail0 * this.y0End - circuit.diodeDrop;
		for (let k = 0; k < 3; k++) {
			if (ties[k] !== open) continue;
			const v = neutral + (k === 0 ? eA : k === 1 ? eB : eC);
			if (top - v < near) {
				this.watchTerminal(k, highDiode);
				this.follow(k, highDiode, near);
			}
			if (v - bottom < near) {
				this.watchTerminal(k, lowDiode);
				this.follow(k, lowDiode, near);
			}
		}
	}

	/** Back-EMF of phase k at the end of the segment in hand, V. */
	private emfAtEnd(k: number): number {
		const { circuit } = this;
		if (circuit.sinusoidal) {
			return (circuit.emfRe[k] as number) * this.wImEnd + (circuit.emfIm[k] as number) * this.wReEnd;
		}
		return this.segment.emfAt(k, this.length);
	}

	/** Margin: the diode current of phase k, sign·i_k. */
	private watchCurrent(k: number, sign: number): void {
		this.mConstant = this.mRipple = this.mEmfA = this.mEmfB = this.mEmfC = 0;
		this.m0 = sign * this.mode.u(k, 0);
		this.m1 = sign * this.mode.u(k, 1);
	}

	/** Margin: how far open terminal k is inside [v_low − V_F, v_bus + V_F], at one end. */
	private watchTerminal(k: number, diode: Tie): void {
		const { mode, circuit } = this;
		const sign = diode === highDiode ? -1 : 1;
		this.mConstant = sign * mode.neutral + circuit.diodeDrop;
		this.mRipple = sign * mode.neutralRipple;
		this.mEmfA = sign * (mode.neutralEmfA + (k === 0 ? 1 : 0));
		this.mEmfB = sign * (mode.neutralEmfB + (k === 1 ? 1 : 0));
		this.mEmfC = sign * (mode.neutralEmfC + (k === 2 ? 1 : 0));
		this.m0 = sign * mode.neutral0;
		this.m1 = sign * mode.neutral1;
		if (diode === highDiode) {
			this.mConstant += circuit.voltage;
			this.mRipple += 1;
		} else {
			this.m0 -= mode.lowRail0;
			this.m1 -= mode.lowRail1;
		}
	}

	/** Margin of two phases that would conduct together with nothing tied: v_bus + 2V_F − (e_x − e_y). */
	private watchPairs(): void {
		for (let x = 0; x < 3; x++) {
			for (let y = 0; y < 3; y++) {
				if (x === y) continue;
				this.setPair(x, y);
				// the largest EMF's phase conducts to the high rail; the other follows in passEvent
				this.follow(x, highDiode, 0);
			}
		}
	}

	private setPair(x: number, y: number): void {
		const { circuit } = this;
		this.mConstant = circuit.voltage + 2 * circuit.diodeDrop;
		this.mRipple = 1;
		this.mEmfA = (y === 0 ? 1 : 0) - (x === 0 ? 1 : 0);
		this.mEmfB = (y === 1 ? 1 : 0) - (x === 1 ? 1 : 0);
		this.mEmfC = (y === 2 ? 1 : 0) - (x === 2 ? 1 : 0);
		this.m0 = this.m1 = 0;
	}

	/**
	 * If the margin reaches zero within the segment in hand, ends the segment
	 * there with phase `k` going over to `tie`. `near`: below this at both ends,
	 * a dip in between is looked for (0: always).
	 */
	private follow(k: number, tie: Tie, near: number): void {
		this.evaluateEnd();
		const atEnd = this.mValue;
		let hi = this.length;
		if (atEnd >= -rounding) {
			if (near > 0 && atEnd > near) return;
			if (this.mSlope <= 0) return;
			this.evaluateStart();
			// from nearly 0 it has just started, and its slope there is rounding
			if (this.mSlope >= 0 || this.mValue < shallow || (near > 0 && this.mValue > near)) return;
			// slope − at the start, + at the end: the least value lies inside
			let lo = 0;
			for (let i = 0; i < 60 && hi - lo > eventTolerance; i++) {
				const mid = 0.5 * (lo + hi);
				this.evaluate(mid);
				if (this.mValue < -shallow) {
					hi = mid;
					break;
				}
				if (this.mSlope < 0) lo = mid;
				else hi = mid;
			}
			if (this.mValue >= -shallow) return;
		}
		this.eventPhase = k;
		this.eventTie = tie;
		this.boundary = 'event';
		this.length = this.firstZero(hi);
		this.endHere();
	}

	/** First zero of the margin in [0, hi], s, where it is negative at `hi` (just evaluated); 0 if it is never positive. */
	private firstZero(hi: number): number {
		const valueHi = this.mValue;
		const slopeHi = this.mSlope;
		this.evaluateStart();
		let lo = 0;
		let s: number;
		if (this.mValue <= 0 || this.mSlope > 0) {
			// just started (zero at 0 but for rounding, growing) or already past: look for a positive place close by
			let probe = hi;
			do {
				probe /= 2;
				if (probe < eventTolerance) return 0;
				this.evaluate(probe);
			} while (this.mValue <= 0);
			lo = probe;
			s = this.mSlope < 0 ? lo - this.mValue / this.mSlope : 0.5 * (lo + hi);
		} else {
			// time as a cubic in the margin, from both ends' values and slopes
			s = inverseCubic(hi, this.mValue, this.mSlope, valueHi, slopeHi);
		}
		// Newton's step where it stays in the bracket, else halving
		for (let i = 0; i < 100; i++) {
			if (!(s > lo && s < hi)) s = 0.5 * (lo + hi);
			this.evaluate(s);
			if (this.mValue > 0) lo = s;
			else hi = s;
			const step = this.mSlope < 0 ? -this.mValue / this.mSlope : hi - lo;
			s += step;
			if (Math.abs(step) < lastStep || hi - lo < eventTolerance) return s;
		}
		throw new Error('a diode event could not be placed');
	}

	/** The margin's value and slope at the start of the segment in hand. */
	private evaluateStart(): void {
		this.sAt = 0;
		this.zReAt = this.zRe;
		this.zImAt = this.zIm;
		this.wReAt = this.wRe;
		this.wImAt = this.wIm;
		this.y0At = this.y0;
		this.y1At = this.y1;
		this.margin();
	}

	/** The margin's value and slope at the segment's end as it stands. */
	private evaluateEnd(): void {
		this.sAt = this.length;
		this.zReAt = this.zReEnd;
		this.zImAt = this.zImEnd;
		this.wReAt = this.wReEnd;
		this.wImAt = this.wImEnd;
		this.y0At = this.y0End;
		this.y1At = this.y1End;
		this.margin();
	}

	/** Phasors of ripple and electrical angle `sAt` seconds into the segment in hand. */
	private turnPhasors(): void {
		const { circuit, sAt } = this;
		if (circuit.rippleAmplitude !== 0) {
			cells[0] = circuit.rippleOmega * sAt;
			turnInPlace(cells, 0);
			const c = cells[0] as number;
			const q = cells[1] as number;
			this.zReAt = this.zRe * c - this.zIm * q;
			this.zImAt = this.zRe * q + this.zIm * c;
		}
		if (circuit.sinusoidal) this.turnRotor();
	}

	private turnRotor(): void {
		cells[0] = this.circuit.omega * this.sAt;
		turnInPlace(cells, 0);
		const c = cells[0] as number;
		const q = cells[1] as number;
		this.wReAt = this.wRe * c - this.wIm * q;
		this.wImAt = this.wRe * q + this.wIm * c;
	}

	/** The margin's value and slope `s` seconds into the segment in hand. */
	private evaluate(s: number): void {
		const { circuit, mode, segment } = this;
		this.sAt = s;
		this.turnPhasors();
		const { zReAt: zRe, zImAt: zIm, wReAt: wRe, wImAt: wIm } = this;
		let y0 = 0;
		let y1 = 0;
		if (mode.modalCount > 0) {
			cells[0] = mode.rate0 * s;
			decayInPlace(cells, 0);
			y0 =
				segment.a0 + segment.b0 * s + mode.rippleRe0 * zIm + mode.rippleIm0 * zRe + segment.d0 * (cells[0] as number);
			if (mode.modalCount > 1) {
				cells[0] = mode.rate1 * s;
				decayInPlace(cells, 0);
				y1 =
					segment.a1 + segment.b1 * s + mode.rippleRe1 * zIm + mode.rippleIm1 * zRe + segment.d1 * (cells[0] as number);
			}
			if (circuit.sinusoidal) {
				y0 += mode.emfRe0 * wIm + mode.emfIm0 * wRe;
				y1 += mode.emfRe1 * wIm + mode.emfIm1 * wRe;
			}
		}
		this.y0At = y0;
		this.y1At = y1;
		this.margin();
	}

	/** The margin's value and slope in the state that `at…` holds. */
	private margin(): void {
		const { circuit, mode, segment, sAt: s, zReAt: zRe, zImAt: zIm, wReAt: wRe, wImAt: wIm, y0At: y0, y1At: y1 } = this;
		let eA: number;
		let eB: number;
		let eC: number;
		let sA: number;
		let sB: number;
		let sC: number;
		let drive0 = mode.drive0 + mode.rippleDrive0 * circuit.rippleAmplitude * zIm;
		let drive1 = mode.drive1 + mode.rippleDrive1 * circuit.rippleAmplitude * zIm;
		if (circuit.sinusoidal) {
			const { emfRe, emfIm, omega } = circuit;
			eA = (emfRe[0] as number) * wIm + (emfIm[0] as number) * wRe;
			eB = (emfRe[1] as number) * wIm + (emfIm[1] as number) * wRe;
			eC = (emfRe[2] as number) * wIm + (emfIm[2] as number) * wRe;
			sA = omega * ((emfRe[0] as number) * wRe - (emfIm[0] as number) * wIm);
			sB = omega * ((emfRe[1] as number) * wRe - (emfIm[1] as number) * wIm);
			sC = omega * ((emfRe[2] as number) * wRe - (emfIm[2] as number) * wIm);
			drive0 += mode.emfDriveRe0 * wIm + mode.emfDriveIm0 * wRe;
			drive1 += mode.emfDriveRe1 * wIm + mode.emfDriveIm1 * wRe;
		} else {
			sA = segment.slopeA;
			sB = segment.slopeB;
			sC = segment.slopeC;
			eA = segment.emfA + sA * s;
			eB = segment.emfB + sB * s;
			eC = segment.emfC + sC * s;
			drive0 -= mode.uA0 * eA + mode.uB0 * eB + mode.uC0 * eC;
			drive1 -= mode.uA1 * eA + mode.uB1 * eB + mode.uC1 * eC;
		}
		this.mValue =
			this.mConstant +
			this.mRipple * circuit.rippleAmplitude * zIm +
			this.mEmfA * eA +
			this.mEmfB * eB +
			this.mEmfC * eC +
			this.m0 * y0 +
			this.m1 * y1;
		this.mSlope =
			this.mRipple * circuit.rippleAmplitude * circuit.rippleOmega * zRe +
			this.mEmfA * sA +
			this.mEmfB * sB +
			this.mEmfC * sC +
			this.m0 * (drive0 - mode.rate0 * y0) +
			this.m1 * (drive1 - mode.rate1 * y1);
	}

	/** Switches what the diode event switches. */
	private passEvent(h: number): void {
		this.stalled = h < eventTolerance ? this.stalled + 1 : 0;
		if (this.stalled > 20) throw new Error('diode events follow each other without end');
		const k = this.eventPhase;
		if (this.eventTie === open) {
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
				for (let j = 0; j < 3; j++) if (this.ties[j] === highDiode || this.ties[j] === lowDiode) this.ties[j] = open;
			}
		} else if (this.mode.conducting === 0) {
			this.startPair();
		} else {
			this.ties[k] = this.eventTie;
		}
		// one that stopped the moment it started was pushed out by rounding, or is on its way in: it may not start again here
		this.settle(this.eventTie === open && h < eventTolerance ? k : -1);
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
		const high = highPhase[this.kind] as number;
		const low = lowPhase[this.kind] as number;
		for (let k = 0; k < 3; k++) {
			const current = k === 0 ? this.iA : k === 1 ? this.iB : this.iC;
			let tie: Tie = current > 0 ? lowDiode : current < 0 ? highDiode : open;
			if (k === high) tie = this.tieOfHigh(this.part, tie);
			else if (k === low) tie = this.tieOfLow(this.part, tie);
			this.ties[k] = tie;
		}
		this.settle();
	}

	private tieOfHigh(part: WindowPart, free: Tie): Tie {
		if (part === 'on' || this.chopping === 'low-side') return highSwitch;
		return part === 'lowClosed' ? lowSwitch : free;
	}

	private tieOfLow(part: WindowPart, free: Tie): Tie {
		return part === 'on' || this.chopping === 'high-side' || this.chopping === 'complementary' ? lowSwitch : free;
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

	/** Goes on to the next part of the PWM period, or to the next period. */
	private passGate(): void {
		const { period } = this.circuit;
		if (this.offset >= period) {
			this.enterPeriod(this.periodIndex + 1, this.part !== 'on');
		} else if (this.part === 'on') {
			this.enterOff();
			this.markEdge(1);
		} else {
			this.nextOffPart();
		}
		this.retie();
	}

	/** Begins a PWM period; `chopped`: the one before ended with an off-window, so that turning on is an edge. */
	private enterPeriod(index: number, chopped: boolean): void {
		this.periodIndex = index;
		this.periodStart = (index - this.carrierPhase) * this.circuit.period;
		this.offset = 0;
		this.duty = this.nextDuty;
		const onEnd = this.onEnd();
		if (onEnd > 0) {
			this.part = 'on';
			this.gateEnd = onEnd;
			if (chopped) this.markEdge(0);
		} else {
			this.enterOff();
		}
	}

	private enterOff(): void {
		this.part = 'off';
		const { period } = this.circuit;
		const lowFrom = this.onEnd() + this.deadTime;
		const complementary = this.chopping === 'complementary' && lowFrom < period - this.deadTime;
		this.gateEnd = complementary ? lowFrom : period;
		if (complementary && this.deadTime === 0) this.nextOffPart();
	}

	private nextOffPart(): void {
		const { period } = this.circuit;
		if (this.part === 'off') {
			this.part = 'lowClosed';
			this.gateEnd = period - this.deadTime;
		} else {
			this.part = 'deadEnd';
			this.gateEnd = period;
		}
	}

	private markEdge(edge: 0 | 1): void {
		this.ringTime = this.time;
		this.ringPeriod = this.periodIndex;
		this.ringEdge = edge;
		this.ringKind = this.kind;
	}

	/**
	 * Adds the segment's ∫ Σ e_k i_k ds = Σ_m ∫ ε_m y_m, ε_m = Σ_k U_km e_k.
	 * Trapezoid: exact, from the modal equation itself (∫y' = −λ∫y + ∫F and the
	 * same times s). Sinusoidal: the two-point rule with first and second
	 * derivatives, whose error h⁷f⁽⁶⁾/100800 stays below 3·10⁻⁹ of the work at
	 * the segment's largest length.
	 */
	private addWork(h: number): void {
		const { circuit, mode, segment } = this;
		if (mode.modalCount === 0) return;
		if (circuit.sinusoidal) {
			this.work += this.sinusoidalWork(h);
			return;
		}
		const eA = segment.emfA;
		const eB = segment.emfB;
		const eC = segment.emfC;
		const sA = segment.slopeA;
		const sB = segment.slopeB;
		const sC = segment.slopeC;
		let ripple = 0;
		let rippleMoment = 0;
		if (circuit.rippleAmplitude !== 0) {
			const w = circuit.rippleOmega;
			ripple = (circuit.rippleAmplitude * (this.zRe - this.zReEnd)) / w;
			rippleMoment = (circuit.rippleAmplitude * ((this.zImEnd - this.zIm) / w - h * this.zReEnd)) / w;
		}
		for (let m = 0; m < mode.modalCount; m++) {
			const first = m === 0;
			const level = first
				? mode.uA0 * eA + mode.uB0 * eB + mode.uC0 * eC
				: mode.uA1 * eA + mode.uB1 * eB + mode.uC1 * eC;
			const slope = first
				? mode.uA0 * sA + mode.uB0 * sB + mode.uC0 * sC
				: mode.uA1 * sA + mode.uB1 * sB + mode.uC1 * sC;
			const rate = first ? mode.rate0 : mode.rate1;
			const start = first ? this.y0 : this.y1;
			const end = first ? this.y0End : this.y1End;
			const drive = (first ? mode.drive0 : mode.drive1) - level;
			const rippleDrive = first ? mode.rippleDrive0 : mode.rippleDrive1;
			const integral = (drive * h - 0.5 * slope * h * h + rippleDrive * ripple - (end - start)) / rate;
			this.work += level * integral;
			if (slope !== 0) {
				const moment =
					(0.5 * drive * h * h - (slope * h * h * h) / 3 + rippleDrive * rippleMoment - h * end + integral) / rate;
				this.work += slope * moment;
			}
		}
	}

	private sinusoidalWork(h: number): number {
		const { circuit, mode } = this;
		let sum = 0;
		for (let m = 0; m < mode.modalCount; m++) {
			const first = m === 0;
			const rate = first ? mode.rate0 : mode.rate1;
			const re = first ? mode.emfDriveRe0 : mode.emfDriveRe1;
			const im = first ? mode.emfDriveIm0 : mode.emfDriveIm1;
			const constant = first ? mode.drive0 : mode.drive1;
			const ripple = (first ? mode.rippleDrive0 : mode.rippleDrive1) * circuit.rippleAmplitude;
			for (let end = 0; end < 2; end++) {
				const wRe = end === 0 ? this.wRe : this.wReEnd;
				const wIm = end === 0 ? this.wIm : this.wImEnd;
				const zRe = end === 0 ? this.zRe : this.zReEnd;
				const zIm = end === 0 ? this.zIm : this.zImEnd;
				const y = end === 0 ? (first ? this.y0 : this.y1) : first ? this.y0End : this.y1End;
				const drive = re * wIm + im * wRe; // −ε
				const driveRate = circuit.omega * (re * wRe - im * wIm);
				const yRate = constant + ripple * zIm + drive - rate * y;
				const yCurve = ripple * circuit.rippleOmega * zRe + driveRate - rate * yRate;
				const f = -drive * y;
				const fRate = -driveRate * y - drive * yRate;
				const fCurve = circuit.omega * circuit.omega * drive * y - 2 * driveRate * yRate - drive * yCurve;
				const sign = end === 0 ? 1 : -1;
				sum += h * (f / 2 + (sign * h * fRate) / 10 + (h * h * fCurve) / 120);
			}
		}
		return sum;
	}
}

/**
 * Where a margin that goes from `v0` > 0 (slope s0) to `v1` < 0 (slope s1) in
 * `h` is zero, if time is taken as the cubic in the margin that fits both ends.
 */
function inverseCubic(h: number, v0: number, s0: number, v1: number, s1: number): number {
	const span = v1 - v0;
	const x = -v0 / span;
	const y = 1 - x;
	if (!(s0 < 0 && s1 < 0)) return h * x;
	return h * x * x * (3 - 2 * x) + (span / s0) * x * y * y - (span / s1) * x * x * y;
}
