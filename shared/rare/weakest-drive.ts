import { type ChoiceName, choiceNames } from '../drive/drive.ts';
import type { StudyPlan } from '../study/plan.ts';
import { shortcomings } from '../study/unit-passes.ts';
import { type JudgedShard, notSimulated } from './judge-drives.ts';
import { partSpace } from './part-space.ts';
import { solderedParts } from './soldered-parts.ts';
import type { WeakestDrive } from './weakest-result.ts';

/** A point of the part space, judged for one choice in every row, each with other moments. */
interface Confirmation {
	readonly point: Float64Array;
	readonly judged: JudgedShard;
	readonly choice: ChoiceName;
}

/** What its parts are, how it fails and in how many of its re-runs. */
export function weakestDrive(plan: StudyPlan, { point, judged, choice }: Confirmation): WeakestDrive {
	const { scenario, compensation } = plan;
	const space = partSpace(scenario);
	const cells = Array.from(judged.weights, (_, row) => row * choiceNames.length + choiceNames.indexOf(choice));
	const simulated = cells.filter((cell) => judged.outcomes[cell] !== notSimulated);
	const failing = simulated.filter((cell) => (judged.outcomes[cell] as number) > 0);
	const usual = mostCommon(failing.map((cell) => `${judged.outcomes[cell]} ${judged.points[cell]}`));
	const [outcome = 0, place = 0] = usual.split(' ').map(Number);
	const at = scenario.points[place];
	const deviations = space.deviations(point);
	return {
		distance: Math.sqrt(point.reduce((sum, x) => sum + x * x, 0)),
		point: at?.name ?? '',
		reason: shortcomings[outcome - 1] ?? 'not simulated',
		angle: median(simulated.map((cell) => judged.angles[cell] as number)),
		perHour: median(simulated.map((cell) => judged.perHour[cell] as number).filter((rate) => !Number.isNaN(rate))),
		confirmed: { failed: failing.length, of: simulated.length },
		parts: solderedParts(scenario, space, point),
		board: {
			case: `likeliest failing, ${choice}`,
			parameters: { ...scenario.values, ...at?.values, 'detection.compensation': compensation[choice] },
			deviations,
		},
	};
}

/** Middle value, or the lower of the two. */
function median(values: readonly number[]): number {
	return [...values].sort((one, other) => one - other)[Math.floor((values.length - 1) / 2)] ?? Number.NaN;
}

function mostCommon(words: readonly string[]): string {
	const counts = new Map<string, number>();
	for (const word of words) counts.set(word, (counts.get(word) ?? 0) + 1);
	return [...counts].sort((one, other) => other[1] - one[1])[0]?.[0] ?? '';
}
