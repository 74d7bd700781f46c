import { buildDrive } from '../../shared/drive/build-drive.ts';
import { type ChoiceName, choiceNames, type Drive } from '../../shared/drive/drive.ts';
import { silence } from '../../shared/drive/noise.ts';
import { simulatePair } from '../../shared/drive/simulate-pair.ts';
import { defaultValues } from '../../shared/scenario/default-values.ts';
import { choiceWords } from '../../shared/words/names.ts';
import { traceCases } from '../data/trace-cases.ts';
import { mean } from '../drive/drives.ts';
import { benchTolerance } from '../reference/bench-tolerance.ts';
import { odexRun } from '../reference/odex-run.ts';
import { checksOf, type ModelCheck } from './model-check.ts';

/** One of the reference boards as the kernel takes it. */
function boardDrive({ parameters, deviations }: (typeof traceCases)[number]): Drive {
	const compensation = parameters['detection.compensation'] as number;
	return buildDrive({ ...defaultValues(), ...parameters }, deviations, {
		halfBus: compensation,
		virtualNeutral: compensation,
	});
}

const engineMean = (board: (typeof traceCases)[number], choice: ChoiceName): number =>
	mean(simulatePair(boardDrive(board), silence)[choice].errors);

/**
 * Mean angle error of every board. The figures of the 5 ns integration fall on
 * its grid: it agrees with itself at 10 ns to 0.01°. Sector by sector, and with
 * currents, duties and readings, tests/drive/reference-traces.test.ts compares.
 */
const traces: ModelCheck[] = traceCases.flatMap((board) =>
	choiceNames.flatMap((choice) =>
		checksOf({ kind: 'independent computation', source: 'fixed-step integration at 5 ns', unit: '°' }, [
			[
				`board ${board.case}, ${choiceWords[choice]}, mean angle error`,
				mean(board.expected[choice].errors),
				0.02,
				() => engineMean(board, choice),
			],
		]),
	),
);

/** Boards that a general-purpose integrator runs too, events, gate edges and firmware written a second time. */
const integrated = [1, 12, 20];

const integrations: ModelCheck[] = traceCases
	.filter((board) => integrated.includes(board.case))
	.flatMap((board) =>
		choiceNames.flatMap((choice) => {
			const { errors } = odexRun(boardDrive(board), choice, benchTolerance);
			return checksOf({ kind: 'independent computation', source: 'general-purpose integrator (odex)', unit: '°' }, [
				[
					`board ${board.case}, ${choiceWords[choice]}, mean angle error`,
					mean(errors),
					0.005,
					() => engineMean(board, choice),
				],
			]);
		}),
	);

export const boardChecks: readonly ModelCheck[] = [...traces, ...integrations];
