import type { ChoiceName, Drive } from '../../shared/drive/drive.ts';
import { busNode, sectors, starNode } from './plain-equations.ts';

/** Comparator, converter and majority filter of one sensing choice, without noise. */
export class PlainDetector {
	private sector: (typeof sectors)[number] = sectors[0];
	private blankedUntil = 0;
	private above = false;
	private votes: boolean[] = [];
	private accepted = false;
	private readonly drive: Drive;
	private readonly threshold: number;

	constructor(drive: Drive, choice: ChoiceName) {
		this.drive = drive;
		this.threshold = choice === 'halfBus' ? busNode : starNode;
	}

	open(n: number, blankedUntil: number): void {
		this.sector = sectors[n % 6] as (typeof sectors)[number];
		this.blankedUntil = blankedUntil;
		this.above = !this.sector.rises;
		this.votes = [];
		this.accepted = false;
	}

	hears(time: number): boolean {
		return !this.accepted && time >= this.blankedUntil;
	}

	/** Sense node of the open phase and threshold, V. */
	nodes(state: readonly number[]): [number, number] {
		return [state[3 + this.sector.open] as number, state[this.threshold] as number];
	}

	/** Takes a reading; whether it completes a majority. */
	accepts(state: readonly number[]): boolean {
		const { sensing, detection } = this.drive;
		const [sense, threshold] = this.nodes(state);
		const { hysteresis, offset } = sensing.comparator;
		const x = this.code(sense + offset[this.sector.open]) - this.code(threshold);
		if (x > hysteresis / 2) this.above = true;
		else if (x <= -hysteresis / 2) this.above = false;
		this.votes.push(this.above === this.sector.rises);
		const latest = this.votes.slice(-detection.majorityWindow);
		this.accepted = latest.filter(Boolean).length >= detection.majorityVotes;
		return this.accepted;
	}

	/** Volts as the converter sees them; as they are without one. */
	private code(volts: number): number {
		const { bits, fullScale } = this.drive.sensing.converter;
		if (bits === 0) return volts;
		const codes = 2 ** bits;
		return (Math.max(0, Math.min(codes - 1, Math.floor((volts * codes) / fullScale))) * fullScale) / codes;
	}
}
