import type { ChoiceName, Drive, Phases } from '../../shared/drive/drive.ts';

/** What the firmware knows of time: its crossings, their intervals and the sector it expects. */
export class Timing {
	/** 60°/ω, s. */
	readonly ideal: number;
	/** T60, s. */
	sector: number;
	/** Latest t_z, s. */
	crossing = 0;
	private readonly intervals: number[] = [];
	private readonly drive: Drive;
	private readonly compensation: number;

	constructor(drive: Drive, choice: ChoiceName) {
		this.drive = drive;
		this.compensation = drive.detection.compensation[choice];
		this.ideal = 10 / (drive.motor.polePairs * drive.operation.speed); // 60° of 6·p·n degrees a second
		this.sector = this.ideal;
	}

	warmUpAt(time: number): void {
		this.crossing = time;
	}

	/** A crossing at t_z; when to commutate. */
	accept(time: number): number {
		const { intervalsAveraged, advance } = this.drive.detection;
		this.intervals.push(time - this.crossing);
		this.crossing = time;
		const latest = this.intervals.slice(-intervalsAveraged);
		const missing = intervalsAveraged - latest.length;
		this.sector = latest.reduce((sum, one) => sum + one, missing * this.ideal) / intervalsAveraged;
		return time + Math.max(0, (this.sector * (30 - advance)) / 60 - this.compensation);
	}

	/** No crossing up to `now`. */
	miss(now: number): void {
		this.crossing = now - this.sector / 2;
	}
}

const mean = (x: Phases): number => (x[0] + x[1] + x[2]) / 3;

/** What a volt of duty does: 2(R̄ + R_on) and 2K̄. */
function means({ motor, inverter }: Drive): { readonly resistance: number; readonly constant: number } {
	return {
		resistance: 2 * (mean(motor.phaseResistance) + inverter.switchResistance),
		constant: 2 * mean(motor.emfConstant),
	};
}

/** The duty a run starts with. */
export function startDuty(drive: Drive): number {
	const { resistance, constant } = means(drive);
	const { voltage } = drive.supply;
	const { chopping, diodeDrop } = drive.inverter;
	const need = (constant * drive.operation.speed * 2 * Math.PI) / 60 + (resistance * drive.operation.torque) / constant;
	const duty =
		chopping === 'complementary'
			? need / voltage
			: chopping === 'both'
				? (need / voltage + 1) / 2
				: (need + diodeDrop) / (voltage + diodeDrop);
	return Math.min(1, Math.max(0, duty));
}

/** The duty after a sector of mean torque `torque`, N·m. */
export function trimmedDuty(drive: Drive, duty: number, torque: number): number {
	const { resistance, constant } = means(drive);
	const share = drive.inverter.chopping === 'both' ? 2 : 1;
	const step = (0.3 * resistance * (drive.operation.torque - torque)) / (constant * drive.supply.voltage * share);
	return Math.min(1, Math.max(0.01, duty + step));
}
