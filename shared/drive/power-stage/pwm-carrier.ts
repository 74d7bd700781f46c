import { realZero } from '../../maths/real-zero.ts';
import type { Circuit } from '../circuit.ts';
import { highSwitch, lowSwitch, type Tie } from '../conduction-mode.ts';
import type { Chopping, Drive } from '../drive.ts';

/** Part of the PWM period: on-window, off-window, and of a complementary off-window the part with the low switch closed. */
type WindowPart = 'on' | 'off' | 'lowClosed';

/** Parts of a PWM period at the most: on, dead, low switch closed, dead. */
export const mostParts = 4;

/** The edge of the chopped switch that a change of part is, if it is one; 0 and 1 are also the ringing's names for them. */
export type Edge = -1 | 0 | 1;
export const noEdge = -1;
export const turnOn = 0;
export const turnOff = 1;

/** A place in time: PWM period, part of it, offset in it (s). */
export interface PeriodPlace {
	readonly period: number;
	readonly part: number;
	readonly offset: number;
}

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
	/** Parts of a period at the present duty, in their order, and where each ends, as an offset, s; where the duty is 0 the first has no length. */
	partCount = 0;
	readonly partEnds = new Float64Array(mostParts);
	private readonly parts: WindowPart[] = ['on', 'off', 'off', 'off'];
	/** Which of them is the present one. */
	part = 0;
	/** s. */
	private period = realZero;
	private chopping: Chopping = 'high-side';
	private deadTime = realZero;

	/** At t = 0. */
	start(circuit: Circuit, drive: Drive, duty: number): void {
		this.period = circuit.period;
		this.chopping = drive.inverter.chopping;
		this.deadTime = drive.inverter.deadTime;
		this.phase = drive.operation.pwmPhase;
		this.periodIndex = 0;
		this.periodStart = -this.phase * this.period;
		this.offset = this.phase * this.period;
		this.nextDuty = duty;
		this.takeDuty();
		this.part = 0;
		while (this.gateEnd <= this.offset && this.part + 1 < this.partCount) this.part++;
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
		this.partCount = other.partCount;
		for (let part = 0; part < mostParts; part++) {
			this.parts[part] = other.parts[part] as WindowPart;
			this.partEnds[part] = other.partEnds[part] as number;
		}
		this.part = other.part;
	}

	/** Seconds since t = 0. */
	get time(): number {
		return this.periodStart + this.offset;
	}

	/** End of the present part, as an offset, s. */
	get gateEnd(): number {
		return this.partEnds[this.part] as number;
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
		if (this.part + 1 === this.partCount) return this.enterPeriod(this.periodIndex + 1);
		this.offset = this.gateEnd;
		this.part++;
		return this.part === 1 ? turnOff : noEdge;
	}

	/** To a place in a period, the ones before which had the present duty. */
	moveTo({ period, part, offset }: PeriodPlace): void {
		if (period > this.periodIndex) this.enterPeriod(period);
		if (offset === 0) return; // as the period begins
		this.part = part;
		this.offset = offset;
	}

	/** Tie of the + phase by its switches in one of the parts; `free` where both are off. */
	tieOfHigh(part: number, free: Tie): Tie {
		const name = this.parts[part];
		if (name === 'on' || this.chopping === 'low-side') return highSwitch;
		return name === 'lowClosed' ? lowSwitch : free;
	}

	/** The same of the − phase. */
	tieOfLow(part: number, free: Tie): Tie {
		const isOn = this.parts[part] === 'on' || this.chopping === 'high-side' || this.chopping === 'complementary';
		return isOn ? lowSwitch : free;
	}

	/** Begins a period. */
	private enterPeriod(index: number): Edge {
		const chopped = this.partCount > 1; // the period before ended with an off-window: turning on is an edge
		this.periodIndex = index;
		this.periodStart = (index - this.phase) * this.period;
		this.offset = 0;
		if (!this.dutyStays) this.takeDuty();
		this.part = (this.partEnds[0] as number) > 0 ? 0 : 1;
		return chopped && this.part === 0 ? turnOn : noEdge;
	}

	/** Works out the parts of a period at the next duty. */
	private takeDuty(): void {
		this.duty = this.nextDuty;
		const { period, deadTime, parts, partEnds } = this;
		const onEnd = this.onEnd();
		const lowTo = period - deadTime;
		partEnds[0] = onEnd;
		if (onEnd >= period) {
			this.partCount = 1;
			return;
		}
		if (this.chopping !== 'complementary' || onEnd + deadTime >= lowTo || deadTime === 0) {
			const closes = this.chopping === 'complementary' && onEnd + deadTime < lowTo;
			parts[1] = closes ? 'lowClosed' : 'off';
			partEnds[1] = period;
			this.partCount = 2;
			return;
		}
		parts[1] = 'off';
		parts[2] = 'lowClosed';
		parts[3] = 'off';
		partEnds[1] = onEnd + deadTime;
		partEnds[2] = lowTo;
		partEnds[3] = period;
		this.partCount = 4;
	}
}
