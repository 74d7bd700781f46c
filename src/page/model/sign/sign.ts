import { computed } from '@preact/signals';
import { failingShares } from '../../../../shared/charts/failing-shares.ts';
import { type ChoiceName, choiceNames, type PerChoice } from '../../../../shared/drive/drive.ts';
import { parameters } from '../../../../shared/parameters/parameters.ts';
import type { JsonObject } from '../../../../shared/scenario/read-json.ts';
import type { Scenario } from '../../../../shared/scenario/scenario.ts';
import { shareDifference } from '../../../../shared/statistics/share-difference.ts';
import { cautionsOf } from '../../../../shared/study/doubts.ts';
import { shortcomingWords } from '../../../../shared/study/point-rows.ts';
import type { ChoiceVerdict, StudyResult } from '../../../../shared/study/result.ts';
import { shortcomings } from '../../../../shared/study/unit-passes.ts';
import { verdictHeadline } from '../../../../shared/study/verdict-headline.ts';
import { capital } from '../../../../shared/words/capital.ts';
import { inShares, wordsOf } from '../../../../shared/words/change.ts';
import { count, enough, percent } from '../../../../shared/words/figures.ts';
import { choiceWords } from '../../../../shared/words/names.ts';
import { quantity } from '../../../../shared/words/quantity.ts';
import { isUnsafeInTerminal, studyArguments, terminalLine } from '../../../../shared/words/study-arguments.ts';
import { isVarying, toleranceWords } from '../../../../shared/words/tolerance.ts';
import type { PageModel } from '../page-model.ts';
import { provenanceRows } from '../provenance-rows.ts';
import { isSimulating } from '../run-status.ts';
import { reservations } from '../which-choice.ts';

export type SignModel = ReturnType<typeof createSign>;

/** The view "what do we sign": the finished study held against its requirement, and everything that the verdict leans on. */
export function createSign(model: PageModel) {
	const { shown, request, state, against, services, source, inputs } = model;
	const isStale = computed(() => {
		const present = shown.value;
		if (!present) return false;
		const asked = request.value;
		return asked?.scenario !== present.scenario || asked.units !== present.units || asked.seed !== present.seed;
	});
	/** The scenario file that gives these inputs: a demo's own, else one that is still to be saved. */
	const file = computed(() => {
		const { kind, file: name, text } = source.value;
		if (inputs.text.value !== text) return 'scenario.json';
		return kind === 'demo' ? `scenarios/${name}` : name;
	});
	return {
		isStale,
		/** A run would give figures of the present inputs. */
		canRun: computed(() => request.value !== null && !isSimulating(state.value)),
		answer: computed(() => {
			const present = shown.value;
			if (!present) return null;
			const { result, scenario, seed, units } = present;
			const { requirement, verdict, comparison, provenance } = result;
			const pinned = against.isBaseline.value ? null : (against.baseline.value?.shown.result ?? null);
			const tolerances = toleranceRows(scenario);
			const assumed = tolerances.filter(({ basis }) => basis === 'assumed');
			// limits are true of a number of drives fixed beforehand, not of wherever a run stands or was stopped
			const isWhole = !provenance.partial;
			return {
				sentence: isWhole ? verdictHeadline(result) : noVerdict(provenance.units),
				requirement: requirement.sentence,
				inFull: isWhole ? [...choiceNames.map((choice) => verdict[choice].sentence), comparison.sentence] : [],
				verdicts: choiceNames.map((choice) => ({
					choice,
					decision: isWhole ? verdict[choice].decision : ('not judged' as const),
					rows: verdictRows(verdict[choice], pinned?.verdict[choice] ?? null, isWhole),
				})),
				picture: failingShares(result, services.theme(), pinned),
				hasGhost: pinned !== null,
				deciding: choiceNames.map((choice) => decidingWords(result, choice)),
				points: pointRows(result),
				tolerances,
				assumed:
					tolerances.length === 0
						? 'No part of this scenario varies.'
						: assumed.length === 0
							? `All ${count(tolerances.length)} tolerances are measured or from data sheets.`
							: `${count(assumed.length)} of ${count(tolerances.length)} tolerances are assumed: guesses until somebody measures. No verdict is better than they are.`,
				/** Why it should not be signed as it stands, the gravest first. */
				reservations: [
					...reservations(present, request.value, state.value),
					...unstated(inputs.document.value),
					...(isWhole && choiceNames.every((choice) => verdict[choice].decision === 'undecided')
						? ['Neither choice is decided: there is nothing to sign yet.']
						: []),
				],
				cautions: cautionsOf(provenance),
				rests: provenanceRows(result),
				reproduce: reproduction(file.value, studyArguments({ seed, units, until: result.stopping })),
			};
		}),
	};
}

const noVerdict = ({ finished, asked }: StudyResult['provenance']['units']): string =>
	`No verdict, and nothing to sign: ${count(finished)} of the ${count(asked)} drives that were fixed beforehand have been simulated. A verdict taken where it looks good is wrong more often than its confidence says.`;

/** The line that gives the same figures on any machine. */
function reproduction(file: string, options: readonly string[]) {
	const words = [file, ...options];
	return {
		line: `npm run --silent study -- ${terminalLine(words)}`,
		note: [
			file === 'scenario.json'
				? 'scenario.json stands for the scenario file of these inputs, which “Keep and share” saves.'
				: '',
			isUnsafeInTerminal(words)
				? 'The seed holds characters that some shells read otherwise: quote it as yours wants it.'
				: '',
			'The result digest comes out the same on any machine, with any number of workers.',
		]
			.filter(Boolean)
			.join(' '),
	};
}

const unstated = (document: JsonObject | null): readonly string[] =>
	document === null || 'requirement' in document
		? []
		: [
				'The scenario states no requirement: what stands here as required is taken where none is given. State your own before anything is signed.',
			];

const all = ({ passed, failed, notSimulated }: ChoiceVerdict): number => passed + failed + notSimulated;

/** One choice's figures, with what the baseline had. */
function verdictRows(now: ChoiceVerdict, before: ChoiceVerdict | null, isWhole: boolean) {
	const row = (label: string, read: (verdict: ChoiceVerdict) => string, step = '') => {
		const was = before && read(before);
		return {
			label,
			words: read(now),
			was: was === null || was === read(now) ? '' : `was ${was}${step && `: ${step}`}`,
		};
	};
	const ofWhole = <Row>(...rows: Row[]): Row[] => (isWhole ? rows : []);
	return [
		row('Drives that pass every point', (verdict) => `${count(verdict.passed)} of ${count(all(verdict))}`),
		row('Share seen', ({ share }) => percent(share), before ? shareStep(before, now) : ''),
		...ofWhole(
			row('Shown at least', ({ low }) => percent(low, 'down')),
			row('Shown at most', ({ high }) => percent(high, 'up')),
		),
		row('Failed the requirement', ({ failed }) => count(failed)),
		row('Could not be simulated', ({ notSimulated }) => count(notSimulated)),
		...ofWhole(
			row('Drives of a new study that would decide it', (verdict) =>
				verdict.decision !== 'undecided'
					? 'decided'
					: verdict.moreUnits === null
						? 'no number within reach'
						: `about ${enough(all(verdict) + verdict.moreUnits)}`,
			),
		),
	];
}

/** The change of the share, with limits as of different drives. */
function shareStep(before: ChoiceVerdict, now: ChoiceVerdict): string {
	if (all(before) === 0 || all(now) === 0) return '';
	const limits = shareDifference(now.passed, all(now), before.passed, all(before));
	const change = { before: before.share, after: now.share, change: now.share - before.share, ...limits };
	return wordsOf(change, inShares)?.step ?? '';
}

/** The operating point where most of a choice's drives fail. */
function decidingWords({ points, verdict }: StudyResult, choice: ChoiceName): string {
	const name = capital(choiceWords[choice]);
	const failing = points.map(({ name: point, choices }) => ({
		point,
		failed: choices[choice].units - choices[choice].passing.passed,
	}));
	const worst = failing.reduce((one, other) => (other.failed > one.failed ? other : one), { point: '', failed: 0 });
	if (worst.failed === 0) return `${name}: no drive fails at any operating point.`;
	const { failed } = verdict[choice];
	const others = failing.filter(({ point, failed: some }) => point !== worst.point && some > 0);
	return others.length === 0
		? `${name}: ${worst.point} decides alone; ${failed === 1 ? 'the one drive that fails does' : `all ${count(failed)} drives that fail do`} so there.`
		: `${name}: ${worst.point} decides; ${count(worst.failed)} of the ${count(failed)} drives that fail do so there, ${others.map(({ point, failed: some }) => `${count(some)} at ${point}`).join(', ')}.`;
}

/** Each operating point: drives that pass with either choice, and the first reason why others do not. */
function pointRows({ points }: StudyResult) {
	const both = (words: (choice: ChoiceName) => string): PerChoice<string> => ({
		halfBus: words('halfBus'),
		virtualNeutral: words('virtualNeutral'),
	});
	return points.map(({ name, choices }) => ({
		name,
		pass: both((choice) => `${count(choices[choice].passing.passed)} of ${count(choices[choice].units)}`),
		reasons: shortcomings
			.filter((reason) => choiceNames.some((choice) => choices[choice].passing.shortcomings[reason] > 0))
			.map((reason) => ({
				reason: shortcomingWords[reason],
				counts: both((choice) => count(choices[choice].passing.shortcomings[reason])),
			})),
	}));
}

/** Every part that varies, guesses first. */
function toleranceRows({ tolerances, values }: Scenario) {
	const rows = parameters.flatMap((record) => {
		const tolerance = tolerances[record.id];
		if (record.kind === 'choice' || !tolerance || !isVarying(tolerance)) return [];
		const value = values[record.id];
		return [
			{
				id: record.id,
				name: record.name,
				nominal: typeof value === 'number' ? quantity(value, record.unit, 6) : String(value),
				...toleranceWords(record, tolerance),
			},
		];
	});
	return [...rows.filter(({ basis }) => basis === 'assumed'), ...rows.filter(({ basis }) => basis !== 'assumed')];
}
