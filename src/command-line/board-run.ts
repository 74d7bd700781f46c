import { buildDrive } from '../../shared/drive/build-drive.ts';
import { choiceNames, type PerChoice, type RunRecord } from '../../shared/drive/drive.ts';
import { silence } from '../../shared/drive/noise.ts';
import { simulatePair } from '../../shared/drive/simulate-pair.ts';
import type { Board } from '../../shared/scenario/read-boards.ts';
import { errorMessage } from '../../shared/words/error-message.ts';

/** One choice's run of a given board, as it is written to a file. */
export interface BoardFigures {
	/** Commutation-angle errors of the measured sectors, electrical degrees. */
	readonly errors: readonly number[];
	/** Crossing errors, electrical degrees; null where the crossing was missed. */
	readonly crossings: readonly (number | null)[];
	/** N·m, from the end of warm-up. */
	readonly meanTorque: number;
	readonly lost: boolean;
	/** Ended at full duty and more than 2 % short of the torque, in lock. */
	readonly torqueNotReached: boolean;
	/** Duty in effect at the commutation that ends each sector, from sector 0 on. */
	readonly duties?: readonly number[];
	/** Mean torque of each measured sector, N·m. */
	readonly torques?: readonly number[];
	/** Of the last sectors: time, s; sense node and threshold, V; i_a, i_b, i_c, A. */
	readonly readings?: readonly (readonly number[])[];
}

/** A board that was simulated, or why it could not be. */
export type BoardResult = { readonly case: Board['case'] } & (PerChoice<BoardFigures> | { readonly failure: string });

/** Sectors at the end of a run whose readings are given. */
const readingSectors = 3;

/** Simulates a board as it stands, without noise, with both choices. */
export function runBoard(board: Board, withReadings: boolean): BoardResult {
	const stated = board.values['detection.compensation'] as number;
	try {
		const drive = buildDrive(board.values, board.deviations, { halfBus: stated, virtualNeutral: stated });
		const pair = simulatePair(drive, silence, withReadings ? { readingSectors } : {});
		const figures = choiceNames.map((choice) => [choice, boardFigures(pair[choice], withReadings)]);
		return { case: board.case, ...(Object.fromEntries(figures) as PerChoice<BoardFigures>) };
	} catch (error) {
		return { case: board.case, failure: errorMessage(error) };
	}
}

function boardFigures(run: RunRecord, withReadings: boolean): BoardFigures {
	return {
		errors: [...run.errors],
		crossings: Array.from(run.crossings, (error) => (Number.isNaN(error) ? null : error)),
		meanTorque: run.meanTorque,
		lost: run.lost,
		torqueNotReached: run.torqueNotReached,
		...(withReadings && { duties: [...run.duties], torques: [...run.torques], readings: run.readings ?? [] }),
	};
}
