import { type ChoiceName, choiceNames, type PerChoice } from '../../shared/drive/drive.ts';
import { perChoice } from '../../shared/drive/per-choice.ts';
import type { Axis } from '../../shared/range/axis.ts';
import {
	type RangeResult,
	type RangeValue,
	rangeAxis,
	type SlowestOfChoice,
	type SlowestSpeed,
} from '../../shared/range/range-result.ts';
import { rangeSentence } from '../../shared/range/range-sentence.ts';
import { type Ranging, retunedScenario, type Setting, settingsOf, variantAt } from '../../shared/range/setting.ts';
import { type Bracket, bracket, nextSpeed } from '../../shared/range/slowest.ts';
import { decisionsAhead } from '../../shared/statistics/verdict.ts';
import { choiceOutcomes } from '../../shared/study/choice-verdict.ts';
import { looksOfRuns, looksWords } from '../../shared/study/looks.ts';
import type { StudyColumns } from '../../shared/study/merge.ts';
import { requirementOf } from '../../shared/study/unit-passes.ts';
import { requirementSentence } from '../../shared/study/verdict-sentence.ts';
import { passesOf } from '../../shared/variants/passes.ts';
import { type Variant, variantScenario } from '../../shared/variants/variant.ts';
import { variantFigures } from '../../shared/variants/variant-figures.ts';
import { variantMethods } from '../../shared/variants/variant-methods.ts';
import { CountedWork } from './counted-work.ts';
import type { EarlyEnds } from './early-ends.ts';
import { type FoundCompensation, findCompensation } from './find-compensation.ts';
import { onOwnWorkers } from './on-own-workers.ts';
import type { Pool } from './pool.ts';
import { provenanceOf } from './provenance.ts';
import { silenceLimitOf } from './silence-limit.ts';
import type { WorkRequest } from './work-request.ts';

export interface RangeRequest extends Ranging, WorkRequest {
	/** One or two, of different parameters. */
	readonly axes: readonly Axis[];
	/** At each value. */
	readonly units: number;
	/** Share of the speed down to which the slowest one is narrowed. */
	readonly resolution: number;
	/** Takes the values asked for as soon as they are done, before the search for the slowest speed. */
	readonly onPartial?: (result: RangeResult) => void;
}

const speedId = 'operation.speed';

/** Runs a range on workers of its own. */
export const runRange = onOwnWorkers(runRangeInPool);

/** The same on workers that live on. */
export async function runRangeInPool(request: RangeRequest, pool: Pool): Promise<RangeResult> {
	const { scenario, axes, seed, units, point, load, resolution } = request;
	const found = await findCompensation(scenario, pool, silenceLimitOf(scenario), request.signal);
	const looks = new Looks(request, found, pool);
	await looks.take(settingsOf(axes), false);

	const speedAxis = axes.find(({ record }) => record.id === speedId);
	const others = speedAxis ? settingsOf(axes.filter((axis) => axis !== speedAxis)) : [];
	const speedAlone = speedAxis !== undefined && axes.every(({ record }) => record.id !== 'operation.torque');
	const requirement = requirementOf(scenario);
	const result = async (isSearched: boolean): Promise<RangeResult> => {
		const answered: Omit<RangeResult, 'sentence'> = {
			format: 'anglespread-range',
			formatVersion: 1,
			provenance: await provenanceOf({
				scenario,
				seed,
				found: { ...found, warnings: looks.warnings },
				digests: looks.digests,
				units: looks.done,
				partial: !isSearched || !looks.isComplete,
				failures: looks.failures,
				methods: {
					...variantMethods,
					'numbers of drives': earlyMethod,
					...(speedAxis && { 'slowest speed': slowestMethod }),
				},
			}),
			requirement: { ...requirement, sentence: requirementSentence(requirement) },
			unitsPerValue: units,
			axes: axes.map(rangeAxis),
			point: point === null ? null : (scenario.points[point]?.name ?? null),
			load: speedAlone ? load : null,
			values: [...looks.values],
			slowest: isSearched && speedAxis && looks.isComplete ? others.map((at) => looks.slowestAt(at, resolution)) : null,
		};
		return { ...answered, sentence: rangeSentence(answered) };
	};

	if (speedAxis && looks.isComplete) request.onPartial?.(await result(false));
	while (speedAxis && looks.isComplete) {
		const wanted = others.flatMap((at) =>
			choiceNames.flatMap((choice) => {
				const speed = nextSpeed(looks.bracketAt(at, choice), resolution, speedAxis.spacing);
				return speed === null ? [] : [{ [speedId]: speed, ...at }];
			}),
		);
		if (wanted.length === 0) break;
		await looks.take([...new Map(wanted.map((one) => [JSON.stringify(one), one])).values()], true);
	}
	return result(true);
}

const earlyMethod = `a value ends after ${looksWords} drives where the requirement fails for certain with both choices, whatever becomes of those to come: every verdict is that of the whole number; limits and intervals of a value that ended early are those of so many drives fixed beforehand, its decision alone keeps the confidence`;

const slowestMethod =
	'from the fastest speed that holds down to the first at which the requirement is not shown to hold, halved between the two; the confidence covers the search as far as every drive that passes at a speed passes at the faster ones too';

/** Everything that was looked at, in the order it was asked for. */
class Looks extends CountedWork<RangeRequest> {
	readonly values: RangeValue[] = [];
	readonly warnings: string[];
	private readonly passes: PerChoice<Uint8Array>[] = [];
	private readonly tuned = new Map<string, FoundCompensation>();

	constructor(request: RangeRequest, found: FoundCompensation, pool: Pool) {
		super(request, found, pool);
		this.warnings = [...found.warnings];
	}

	/** Runs the drives at these settings, as one job. */
	async take(settings: readonly Setting[], isSearched: boolean): Promise<void> {
		const { request } = this;
		const { scenario, units } = request;
		const firmware: FoundCompensation[] = [];
		for (const setting of settings) firmware.push(await this.firmwareAt(setting));
		const variants = settings.map(
			(setting, place): Variant => ({
				...variantAt(request, setting),
				compensation: (firmware[place] as FoundCompensation).compensation,
			}),
		);
		const early = { looks: looksOfRuns(units), ended: failingForCertain(variants, firmware, request) };
		const studies = await this.run(variants, { firmware, early });
		for (const [place, at] of settings.entries()) {
			const study = studies[place] as StudyColumns;
			const { compensation } = firmware[place] as FoundCompensation;
			const varied = variantScenario(scenario, variants[place] as Variant);
			this.values.push({ at, isSearched, compensation, ...variantFigures(varied, study) });
			this.passes.push(passesOf(varied, study));
		}
	}

	bracketAt(at: Setting, choice: ChoiceName): Bracket {
		return bracket(
			this.placesAt(at).map((place) => {
				const value = this.values[place] as RangeValue;
				return { speed: value.at[speedId] as number, decision: value.choices[choice].verdict.decision };
			}),
		);
	}

	slowestAt(at: Setting, resolution: number): SlowestSpeed {
		const of = (choice: ChoiceName): SlowestOfChoice => {
			const { fastest, holds, fails } = this.bracketAt(at, choice);
			const places = this.placesAt(at);
			const atFails = places
				.map((place) => this.values[place] as RangeValue)
				.find((value) => value.at[speedId] === fails);
			return {
				fastest,
				holds,
				fails,
				decision: atFails?.choices[choice].verdict.decision ?? null,
				turnedRound: fastest === null || holds === null ? 0 : this.turnedRound(places, choice, [holds, fastest]),
			};
		};
		return { at, resolution, choices: perChoice(of) };
	}

	/** Drives that pass at some of these speeds from `slowest` to `fastest` and not at a faster one of them. */
	private turnedRound(
		places: readonly number[],
		choice: ChoiceName,
		[slowest, fastest]: readonly [number, number],
	): number {
		const speedOf = (place: number): number => this.values[place]?.at[speedId] ?? 0;
		const rising = places
			.filter((place) => speedOf(place) >= slowest && speedOf(place) <= fastest)
			.sort((a, b) => speedOf(a) - speedOf(b));
		let turned = 0;
		for (let unit = 0; unit < this.request.units; unit += 1) {
			let hasPassed = false;
			const turns = rising.some((place) => {
				const passes = this.passes[place]?.[choice][unit] === 1;
				const turnedHere = hasPassed && !passes;
				hasPassed ||= passes;
				return turnedHere;
			});
			if (turns) turned += 1;
		}
		return turned;
	}

	/** Places of the values at this setting of the other axis. */
	private placesAt(at: Setting): number[] {
		return [...this.values.keys()].filter((place) =>
			Object.entries(at).every(([id, value]) => this.values[place]?.at[id] === value),
		);
	}

	/** The firmware's compensation: the scenario's own, or that of its nominal drive with the setting's parts and settings. */
	private async firmwareAt(setting: Setting): Promise<FoundCompensation> {
		const scenario = retunedScenario(this.request, setting);
		if (scenario === null) return this.found;
		const { [speedId]: _, ...rest } = setting;
		const key = JSON.stringify(rest);
		const known = this.tuned.get(key);
		if (known) return known;
		const found = await findCompensation(scenario, this.pool, silenceLimitOf(scenario), this.request.signal);
		this.tuned.set(key, found);
		for (const warning of found.warnings) if (!this.warnings.includes(warning)) this.warnings.push(warning);
		return found;
	}
}

/** Which values may end: those where the requirement fails for certain with both choices, whatever becomes of the drives to come. */
const failingForCertain =
	(
		variants: readonly Variant[],
		firmware: readonly FoundCompensation[],
		{ scenario, units }: Pick<RangeRequest, 'scenario' | 'units'>,
	): EarlyEnds['ended'] =>
	(goingOn) => {
		const { share, confidence } = requirementOf(scenario);
		return [...goingOn].flatMap(([place, study]) => {
			const outcomes = choiceOutcomes(variantScenario(scenario, variants[place] as Variant), study);
			const fails = choiceNames.every(
				(choice) => decisionsAhead(outcomes[choice], units, share, confidence).best === 'fails',
			);
			// where no compensation was found, all drives are to count as failed
			return fails && firmware[place]?.failure === undefined ? [place] : [];
		});
	};
