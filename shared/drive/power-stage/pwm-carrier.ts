import { realZero } from '../../maths/real-zero.ts';
import type { Circuit } from '../circuit.ts';
import { highSwitch, lowSwitch, open, type Tie } from '../conduction-mode.ts';
import type { Chopping, Drive } from '../drive.ts';

/** Part of the PWM period: on-window, off-window, and of a complementary off-window the part with the low switch closed. */
type WindowPart = 'on' | 'off' | 'lowClosed' | 'deadEnd';

/** The edge of the chopped switch that a change of part is, if it is one; 0 and 1 are also the ringing's names for them. */
export type Edge = -1 | 0 | 1;
export const noEdge = -1;
const turnOn = 0;
export const turnOff = 1;

/** Where the drive stands in its PWM period, and which switches the period's part closes. The carrier is never reset. */
export class PwmCarrier {
	/** Index and start (s) of the present period, offset in it (s), its duty, and the duty of the next. */
	periodIndex = 0;
	periodStart = realZero;
	offset = realZero;
	duty = realZero;
	nextDuty = realZero;
	/** How far into a period t = 0 lies, as a share of it. */
	phase = realZero;
	/** End of the present part, as an offset, s. */
	gateEnd = realZero;
	/** s. */
	private period = realZero;
	private part: WindowPart = 'on';
	private chopping: Chopping = 'high-side';
	private deadTime = realZero;
	/** Parts of a whole period at the present duty, in their order. */
	private partNames: readonly WindowPart[] = [];

	/** At t = 0. */
	start(circuit: Circuit, drive: Drive, duty: number): void {
		this.period = circuit.period;
		this.chopping = drive.inverter.chopping;
		this.deadTime = drive.inverter.deadTime;
		this.phase = drive.operation.pwmPhase;
		this.periodIndex = 0;
		this.periodStart = -this.phase * this.period;
		this.offset = this.phase * this.period;
		this.duty = duty;
		this.nextDuty = duty;
		this.part = 'on';
		const onEnd = this.onEnd();
		if (this.offset < onEnd) {
			this.gateEnd = onEnd;
		} else {
			this.enterOff();
			while (this.gateEnd <= this.offset && this.gateEnd < this.period) this.nextOffPart();
		}
	}

	copyFrom(other: PwmCarrier): void {
		this.period = other.period;
		this.chopping = other.chopping;
		this.deadTime = other.deadTime;
		this.phase = other.phase;
		this.periodIndex = other.periodIndex;
		this.periodStart = other.periodStart;
		this.offset = other.offset;
		this.duty = other.duty;
		this.nextDuty = other.nextDuty;
		this.part = other.part;
		this.gateEnd = other.gateEnd;
	}

	/** Seconds since t = 0. */
	get time(): number {
		return this.periodStart + this.offset;
	}

	/** End of the present period's on-window, as an offset, s. */
	onEnd(): number {
		return this.duty >= 1 ? this.period : this.duty * this.period;
	}

	/** Whether the next period has the present one's duty. */
	get dutyStays(): boolean {
		return this.nextDuty === this.duty;
	}

	/** Ends of periods up to `time` (s), all at the present duty: one at most where the next period has another. */
	endsUntil(time: number): number {
		const ends = Math.floor((time - this.periodStart) / this.period - 1e-9);
		return this.dutyStays ? ends : Math.min(1, ends);
	}

	/** From the end of the present part on to the next, or to the next period. */
	pass(): Edge {
		this.offset = this.gateEnd;
		if (this.offset >= this.period) return this.enterPeriod(this.periodIndex + 1, this.part !== 'on');
		if (this.part === 'on') {
			this.enterOff();
			return turnOff;
		}
		this.nextOffPart();
		return noEdge;
	}

	/** On to the start of the period that many later, the ones before it at the present duty. */
	skip(periods: number): Edge {
		return this.enterPeriod(this.periodIndex + periods, this.duty < 1);
	}

	/** To an offset (s) in one of the parts (partLengths) of the present period. */
	moveTo(part: number, offset: number): void {
		const { period, deadTime, partNames } = this;
		this.part = partNames[part] as WindowPart;
		this.offset = offset;
		if (part + 1 === partNames.length) this.gateEnd = period;
		else if (part === 0) this.gateEnd = this.onEnd();
		else this.gateEnd = part === 1 ? this.onEnd() + deadTime : period - deadTime;
	}

	/** The present part's place among those of partLengths. */
	get partIndex(): number {
		return this.partNames.indexOf(this.part);
	}

	/** Tie of the + phase by its switches; `free` where both are off. */
	tieOfHigh(free: Tie): Tie {
		return this.highIn(this.part, free);
	}

	/** The same of the − phase. */
	tieOfLow(free: Tie): Tie {
		return this.lowIn(this.part, free);
	}

	/** Lengths of the parts of a whole period at the present duty, s, into `lengths`; their number, 0 without an on-window. */
	partLengths(lengths: Float64Array): number {
		const { period } = this;
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

	/** Tie of the + and of the − phase by their switches in one of these parts; `open` where both are off. */
	tieOfHighIn(part: number): Tie {
		return this.highIn(this.partNames[part] as WindowPart, open);
	}

	tieOfLowIn(part: number): Tie {
		return this.lowIn(this.partNames[part] as WindowPart, open);
	}

	private highIn(part: WindowPart, free: Tie): Tie {
		if (part === 'on' || this.chopping === 'low-side') return highSwitch;
		return part === 'lowClosed' ? lowSwitch : free;
	}

	private lowIn(part: WindowPart, free: Tie): Tie {
		return part === 'on' || this.chopping === 'high-side' || this.chopping === 'complementary' ? lowSwitch : free;
	}

	/** Begins a period; `chopped`: the one before ended with an off-window, so that turning on is an edge. */
	private enterPeriod(index: number, chopped: boolean): Edge {
		this.periodIndex = index;
		this.periodStart = (index - this.phase) * this.period;
		this.offset = 0;
		this.duty = this.nextDuty;
		const onEnd = this.onEnd();
		if (onEnd > 0) {
			this.part = 'on';
			this.gateEnd = onEnd;
			return chopped ? turnOn : noEdge;
		}
		this.enterOff();
		return noEdge;
	}

	private enterOff(): void {
		this.part = 'off';
		const lowFrom = this.onEnd() + this.deadTime;
		const complementary = this.chopping === 'complementary' && lowFrom < this.period - this.deadTime;
		this.gateEnd = complementary ? lowFrom : this.period;
		if (complementary && this.deadTime === 0) this.nextOffPart();
	}

	private nextOffPart(): void {
		if (this.part === 'off') {
			this.part = 'lowClosed';
			this.gateEnd = this.period - this.deadTime;
		} else {
			this.part = 'deadEnd';
			this.gateEnd = this.period;
		}
	}
}
