import type { Circuit } from '../circuit.ts';
import type { Drive } from '../drive.ts';
import type { Ringing } from '../ringing.ts';
import type { SegmentHistory } from '../segment-history.ts';

/**
 * What a sensing choice is: the threshold that the open phase's sense node is
 * compared with. A further choice is one class of this shape, its name in
 * `choiceNames` and one line in sensing-choice.ts.
 */
export interface Threshold {
	/** Threshold at the last reading without ringing, and the ringing's part of it, V. */
	readonly value: number;
	readonly ringing: number;
	/** Gets ready for a run of `drive` from t = 0. */
	reset(drive: Drive, circuit: Circuit): void;
	/** The trajectory's last segments are taken back: nothing worked out on them may be built on. */
	rewind(): void;
	/** Brings the threshold to the history's reading point. */
	read(history: SegmentHistory, circuit: Circuit, ringing: Ringing): void;
	/** Its index among the nodes that the terminals drive; −1 where they do not move it. */
	readonly node: number;
	/** Share of the high rail that it follows beside the terminals. */
	busGain(circuit: Circuit): number;
}
