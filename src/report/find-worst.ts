import { type ChoiceName, choiceNames, type PerChoice } from '../../shared/drive/drive.ts';
import { drawBoard } from '../../shared/one-drive/build-request.ts';
import type { DriveRequest } from '../../shared/one-drive/drive-request.ts';
import type { DriveWindow, SectorEvents } from '../../shared/one-drive/drive-window.ts';
import { unusualParts } from '../../shared/one-drive/unusual-parts.ts';
import { whatWentWrong } from '../../shared/one-drive/what-went-wrong.ts';
import { worstStart } from '../../shared/one-drive/worst-start.ts';
import type { WorstDrive } from '../../shared/report/report.ts';
import type { Scenario } from '../../shared/scenario/scenario.ts';
import type { StudyPlan } from '../../shared/study/plan.ts';
import type { StudyResult, WorstUnit } from '../../shared/study/result.ts';
import { requirementOf } from '../../shared/study/unit-passes.ts';
import { driveLab } from '../host/drive-lab.ts';
import type { Pool } from '../host/pool.ts';

/** Columns that its picture is drawn in, and sectors to either side of the worst one. */
const columns = 560;
const sectorsAround = 0.75;

/** No worst drives: they were not looked for. */
export const noWorst: PerChoice<null> = { halfBus: null, virtualNeutral: null };

/** Each choice's worst drive over all operating points, simulated again around its worst sector; null where it cannot be. */
export async function findWorst(
	scenario: Scenario,
	result: StudyResult,
	pool: Pool,
): Promise<PerChoice<WorstDrive | null>> {
	const found = await Promise.all(
		choiceNames.map(async (choice) => [choice, await worstOf(choice, scenario, result, pool)] as const),
	);
	return Object.fromEntries(found) as unknown as PerChoice<WorstDrive | null>;
}

async function worstOf(
	choice: ChoiceName,
	scenario: Scenario,
	{ points, provenance: { seed, compensation } }: StudyResult,
	pool: Pool,
): Promise<WorstDrive | null> {
	let worst: { readonly of: WorstUnit; readonly point: number } | null = null;
	for (const [point, { choices }] of points.entries()) {
		const [first] = choices[choice].worst;
		if (first && (worst === null || first.error > worst.of.error)) worst = { of: first, point };
	}
	if (worst === null) return null;
	const { of, point } = worst;
	const plan: StudyPlan = { scenario, seed, compensation };
	const lab = driveLab(pool);
	try {
		const outcomes = await lab.outcomes(plan, of.unit);
		const start = worstStart(outcomes, point, Number(scenario.values['trial.starts']), [choice]);
		const drive: DriveRequest = { plan, unit: of.unit, point, start };
		const causes = await lab.causes(drive);
		const whole = await lab.window({ drive, from: 0, to: 0, columns: 2 });
		const window = await lab.window({ drive, ...around(whole, choice), columns });
		const board = drawBoard(drive);
		return {
			choice,
			unit: of.unit,
			point,
			start,
			error: of.error,
			diagnoses: whatWentWrong(causes, requirementOf(scenario)),
			parts: unusualParts(scenario, board.values, board.deviations),
			window,
		};
	} catch {
		// said in the report where its waveforms would be
		return null;
	}
}

/** The stretch around the sector that went worst: a false or missed crossing first, else the largest error of a commutation. */
function around(
	{ runs, end, degreesPerSecond }: DriveWindow,
	choice: ChoiceName,
): { readonly from: number; readonly to: number } {
	const measured = runs[choice].sectors.filter((sector) => sector.measured);
	const badness = ({ kind, angleError }: SectorEvents): number => (kind === null ? 0 : 1000) + Math.abs(angleError);
	const worst = measured.reduce<SectorEvents | null>(
		(found, one) => (found === null || badness(one) > badness(found) ? one : found),
		null,
	);
	const sector = 60 / degreesPerSecond;
	const [begin, commutation] = worst ? [worst.begin, worst.commutation] : [end - sector, end];
	return {
		from: Math.max(0, begin - sectorsAround * sector),
		to: Math.min(end, commutation + sectorsAround * sector),
	};
}
