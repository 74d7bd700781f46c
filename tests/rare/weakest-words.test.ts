import { expect, test } from 'vitest';
import { summariseDraws } from '../../shared/rare/summarise-draws.ts';
import type { WeakestChoice, WeakestDrive, WeakestResult, WeightedFigure } from '../../shared/rare/weakest-result.ts';
import {
	assumedWords,
	failingVerdictSentence,
	seldomSentences,
	shareSentences,
	solderedCells,
	weakestSentence,
} from '../../shared/rare/weakest-words.ts';

const drive: WeakestDrive = {
	distance: 4.6,
	point: 'fast',
	reason: 'angle',
	angle: 5.31,
	perHour: 12,
	confirmed: { failed: 18, of: 20 },
	parts: [],
	board: { case: 'half-bus', parameters: {}, deviations: {} },
};
const figure = (over: Partial<WeightedFigure> = {}): WeightedFigure => ({
	value: 2e-5,
	standardError: 1e-6,
	interval: { low: 1.8e-5, high: 2.2e-5 },
	effective: 400,
	largestShare: 0.01,
	draws: 900,
	...over,
});
const choice = (over: Partial<WeakestChoice> = {}): WeakestChoice => ({
	outcome: 'found',
	distances: [4.5],
	drive,
	failingShare: figure(),
	verdict: { decision: 'holds', low: 1.5e-5, high: 2.5e-5, limits: 'draws' },
	crossingsPerHour: figure({ value: 0.5 }),
	unmeasured: 0,
	...over,
});
const plain = (words: string): string => words.replaceAll('\u00a0', ' ');

test('the likeliest failing drive is told with its distance, why and where it fails, and how often on re-runs', () => {
	const alone =
		'The likeliest failing drive found lies 4.50 standard deviations from the middle of all tolerances. ' +
		'With nothing but the parts below off the middle, which takes 4.60 standard deviations, ' +
		'its angle error comes to 5.31° at fast; that drive fails in 18 of 20 runs with other starts and noise.';
	expect(weakestSentence(choice())).toBe(alone);
	expect(weakestSentence(choice({ distances: [4.5, 4.9] }))).toContain(
		' 1 other combination is at most 0.4 standard deviations farther out. ',
	);
	expect(weakestSentence(choice({ distances: [4.5, 4.9, 6] }))).toContain(
		' 2 other combinations are at most 1.5 standard deviations farther out. ',
	);
	expect(weakestSentence(choice({ outcome: 'nominal', distances: [0], drive: { ...drive, reason: 'lock' } }))).toBe(
		'The drive with every part in the middle of its tolerance fails already: it loses lock at fast. It does so in 18 of 20 runs with other starts and noise.',
	);
	expect(weakestSentence(choice({ outcome: 'none', distances: [], drive: null }))).toBe(
		'Nothing failed as far as was searched, 8.5 standard deviations along every slope.',
	);
	expect(weakestSentence(choice({ outcome: 'unknown', distances: [], drive: null }))).toBe(
		'Interrupted before a failing drive was found.',
	);
});

test('whether few enough drives fail is said with the limit that shows it, rounded away from the claim', () => {
	const required = { share: 0.99, confidence: 0.95 } as Parameters<typeof failingVerdictSentence>[1];
	const said = (over: Pick<WeakestChoice['verdict'], 'decision'> & Partial<WeakestChoice['verdict']>): string =>
		plain(
			failingVerdictSentence(choice({ verdict: { low: 0.0031, high: 0.0049, limits: 'draws', ...over } }), required),
		);
	expect(said({ decision: 'holds' })).toBe(
		'The requirement holds: at most 0.5 % of drives fail where 1 % may (95 % confidence).',
	);
	expect(said({ decision: 'fails', low: 0.0239, limits: 'bound' })).toBe(
		'The requirement fails: at least 2.3 % of drives fail where 1 % may (95 % confidence), by a bound that is true however few draws carry the share.',
	);
	expect(said({ decision: 'undecided', high: 0.02 })).toBe(
		'The requirement is undecided: between 0.3 % and 2.0 % of drives fail where 1 % may (95 % confidence). Draw more drives.',
	);
});

test('shares and rates have limits where enough draws carry them, else the reason why not', () => {
	const [failing, hourly] = seldomSentences(
		choice({ crossingsPerHour: figure({ value: 0.5, interval: null, effective: 1.2, largestShare: 0.9 }) }),
		0.95,
	).map(plain);
	expect(failing).toBe(
		'Failing drives: 0.002 %, 95 % limits 0.002 % … 0.002 %; carried by 400 draws, the largest holding 1.0 %.',
	);
	expect(hourly).toBe(
		'Crossings an hour, mean of drives: about 0.5, but carried by one draw, the largest holding 90.0 %: too few for limits. Draw more drives.',
	);
	const none = figure({ value: 0, interval: null, effective: 0, draws: 0 });
	expect(seldomSentences(choice({ failingShare: none }), 0.95)[0]).toBe('Failing drives: none among the draws.');
	const tiny = figure({ value: 1e-30, interval: null, effective: 30, largestShare: 0.5 });
	expect(plain(seldomSentences(choice({ crossingsPerHour: tiny }), 0.95)[1])).toContain(
		'mean of drives: below 10⁻¹⁸, but carried by 30 draws',
	);
});

test('where a search was interrupted before any draw, neither a share nor a mean weight is told', () => {
	const result = (drives: number, meanWeight: number) =>
		({
			draws: { drives, centres: 24, ordinary: 0.15, meanWeight },
			gaussianTo: 5.5,
			requirement: { share: 0.95, confidence: 0.95 },
			provenance: { level: 0.95 },
		}) as WeakestResult;
	expect(shareSentences(choice(), result(0, Number.NaN))).toEqual([
		'No drive was drawn for the share: how many fail is not known.',
	]);
	expect(assumedWords(result(0, Number.NaN))).toMatch(/5\.5 standard deviations out\.$/);
	expect(shareSentences(choice(), result(4000, 1.02)).map((words) => words.slice(0, 20))).toEqual([
		'The requirement hold',
		'Failing drives: 0.00',
		'Crossings an hour, m',
	]);
	expect(assumedWords(result(4000, 1.02))).toMatch(/averages of 4000 weighted draws .* mean weight is 1\.02/);
});

test('a part is named with its phase or number, its deviation signed', () => {
	const part = (id: string, instance: number, deviation: number, isRelative = true) =>
		solderedCells({ id, instance, unit: 'Ω', nominal: 22_000, value: 22_100, deviation, isRelative, share: 0.4 }).map(
			plain,
		);
	expect(part('sensing.divider.top', 1, 0.0045)).toEqual(['phase divider, top b', '22.1 kΩ', '+0.45 %', '40.0 %']);
	expect(part('sensing.halfBus.top', 0, -0.01)[2]).toBe('−1.00 %');
	expect(part('sensing.halfBus.top', 0, -0.01)[0]).not.toMatch(/ [a1]$/);
});

test('of four weighted draws, half-bus fails in two and virtual neutral in one: shares and hourly rates are weighted means', () => {
	// outcomes and rates lie [drive][choice]
	const requirement = { share: 0.99, confidence: 0.95 } as Parameters<typeof summariseDraws>[2];
	const { halfBus, virtualNeutral } = summariseDraws(
		{
			outcomes: Uint8Array.of(1, 0, 0, 0, 3, 2, 0, 0),
			perHour: Float64Array.of(8, 0, 0, 0, 4, 6, 0, 0),
			weights: Float64Array.of(0.5, 1, 0.1, 2),
		},
		0.95,
		requirement,
		0.25,
	);
	expect(halfBus.failingShare.value).toBeCloseTo((0.5 + 0.1) / 4, 14);
	expect(halfBus.failingShare.draws).toBe(2);
	expect(halfBus.crossingsPerHour.value).toBeCloseTo((0.5 * 8 + 0.1 * 4) / 4, 14);
	expect(virtualNeutral.failingShare.value).toBeCloseTo(0.1 / 4, 14);
	expect(virtualNeutral.failingShare.draws).toBe(1);
	expect(virtualNeutral.crossingsPerHour.value).toBeCloseTo((0.1 * 6) / 4, 14);
});

test('no share of drives is told as more than all of them', () => {
	const [failing] = seldomSentences(choice({ failingShare: figure({ value: 1.02, interval: null }) }), 0.95);
	expect(plain(failing)).toContain('Failing drives: about 100 %, ');
});

test('a draw that lost lock before a sector was measured fails, adds no crossings and is told of', () => {
	const { halfBus, virtualNeutral } = summariseDraws(
		{
			outcomes: Uint8Array.of(1, 0, 1, 0),
			perHour: Float64Array.of(Number.NaN, 0, 6, 0),
			weights: Float64Array.of(1, 0.5),
		},
		0.95,
		{ share: 0.99, confidence: 0.95 } as Parameters<typeof summariseDraws>[2],
		0.25,
	);
	expect(halfBus.failingShare.draws).toBe(2);
	expect(halfBus.unmeasured).toBe(1);
	expect(halfBus.crossingsPerHour.value).toBeCloseTo((0.5 * 6) / 2, 14);
	expect(virtualNeutral.unmeasured).toBe(0);
	const [, hourly] = seldomSentences(choice({ ...halfBus, outcome: 'found' }), 0.95);
	expect(plain(hourly)).toMatch(/ 1 of the draws lost lock before a sector was measured; they add no crossings\.$/);
	expect(seldomSentences(choice(), 0.95)[1]).not.toContain('lost lock');
});

test('where every draw fails, the share has a width all the same', () => {
	const { halfBus } = summariseDraws(
		{ outcomes: new Uint8Array(400).fill(1), perHour: new Float64Array(400), weights: new Float64Array(200).fill(1) },
		0.95,
		{ share: 0.95, confidence: 0.95 } as Parameters<typeof summariseDraws>[2],
		0.25,
	);
	expect(halfBus.failingShare.value).toBe(1);
	expect(halfBus.failingShare.interval?.low).toBeLessThan(0.99);
	const [failing] = seldomSentences(choice(halfBus), 0.95);
	expect(plain(failing)).toMatch(/^Failing drives: 100 %, 95 % limits \d\d\.\d % … 100 %; /);
});

test('where no draw fails, the share is bounded by the heaviest weight that 15 % of ordinary draws leave', () => {
	const drives = 4000;
	const { halfBus } = summariseDraws(
		{
			outcomes: new Uint8Array(2 * drives),
			perHour: new Float64Array(2 * drives),
			weights: new Float64Array(drives).fill(1),
		},
		0.95,
		{ share: 0.98, confidence: 0.95 } as Parameters<typeof summariseDraws>[2],
		0.15,
	);
	// empirical Bernstein of zeros: 7 ln(2/0.05)/(3 (n − 1)) of the heaviest weight, 1/0.15
	expect(halfBus.verdict).toMatchObject({ decision: 'holds', limits: 'bound' });
	expect(halfBus.verdict.high).toBeCloseTo((7 * 3.6888795) / 0.15 / 3 / (drives - 1), 7);
});
