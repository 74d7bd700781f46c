import type { Drive } from '../../shared/drive/drive.ts';
import type { Part } from './plain-inverter.ts';

interface Change {
	readonly time: number;
	readonly part: Part;
}

/** The PWM carrier: gate changes and sampling instants, one period after the other, never reset. */
export class PlainCarrier {
	part: Part = 'on';
	duty: number;
	/** Takes effect at the next period's start. */
	nextDuty: number;
	/** Sampling instants of the present period that are yet to come, s. */
	samples: number[] = [];
	private index = 0;
	private changes: Change[] = [];
	private end = 0;
	private readonly drive: Drive;

	constructor(drive: Drive, duty: number) {
		this.drive = drive;
		this.duty = this.nextDuty = duty;
		this.layOut();
		while ((this.changes[0]?.time ?? Infinity) <= 0) this.part = (this.changes.shift() as Change).part;
		this.samples = this.samples.filter((time) => time > 0);
	}

	/** Time of the next gate change or period start, s. */
	get next(): number {
		return this.changes[0]?.time ?? this.end;
	}

	/** Passes whatever is due at `next`; +1 where the on-window begins, −1 where it ends, 0 elsewhere. */
	pass(): 1 | -1 | 0 {
		const now = this.next;
		const wasOn = this.part === 'on';
		if (now === this.end) {
			this.index++;
			this.duty = this.nextDuty;
			this.layOut();
		}
		while ((this.changes[0]?.time ?? Infinity) <= now) this.part = (this.changes.shift() as Change).part;
		const isOn = this.part === 'on';
		return isOn === wasOn ? 0 : isOn ? 1 : -1;
	}

	private layOut(): void {
		const { inverter, operation, detection } = this.drive;
		const at = (index: number): number => (index - operation.pwmPhase) / inverter.pwmFrequency;
		const start = at(this.index);
		this.end = at(this.index + 1);
		const onEnd = this.duty < 1 ? start + this.duty / inverter.pwmFrequency : this.end;

		this.changes = this.duty > 0 ? [{ time: start, part: 'on' }] : [];
		if (this.duty < 1) {
			this.changes.push({ time: onEnd, part: 'off' });
			const { chopping, deadTime } = inverter;
			if (chopping === 'complementary' && onEnd + deadTime < this.end - deadTime) {
				this.changes.push({ time: onEnd + deadTime, part: 'low closed' });
				if (deadTime > 0) this.changes.push({ time: this.end - deadTime, part: 'off' });
			}
		}

		const from = detection.window === 'off' ? onEnd : start;
		const to = detection.window === 'on' ? onEnd : this.end;
		this.samples = [];
		for (let j = 0; j < detection.samples && to > from; j++) {
			this.samples.push(from + ((j + detection.position) / detection.samples) * (to - from));
		}
	}
}
