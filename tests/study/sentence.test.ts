import { expect, test } from 'vitest';
import { pairedFigures } from '../../shared/study/paired-figures.ts';
import { pointSentence } from '../../shared/study/sentence.ts';

const figures = (median: number, changes = {}) => ({
	unitError: { median, q95: 2 * median, medianInterval: null, q95Interval: null },
	angleError: { mean: 0, sd: 3, quantiles: {}, maxAbs: 9 },
	lost: 0,
	runs: 80,
	meanTorque: 0.1,
	torqueNotReached: 0,
	...changes,
});
const twenty = Float64Array.from({ length: 20 }, (_, i) => 2 + i / 10);
const base = { point: 'rated', level: 0.95, torque: 0.1, gridSpread: 0.5 };

test('a choice that is better says by how much, with interval, drives and test', () => {
	const sentence = pointSentence({
		...base,
		choices: { halfBus: figures(2.95), virtualNeutral: figures(3.45) },
		paired: pairedFigures(
			twenty,
			twenty.map((value) => value + 0.5),
			0.95,
		),
	});
	expect(sentence).toBe(
		"At rated half-bus is better by 0.50° (95\u00a0% interval 0.50° to 0.50°): 95\u00a0% of the typical drive's commutations lie within 2.95°, against 3.45° with virtual neutral; half-bus has the smaller error in 20 of 20 drives (sign test: p below 1 in 10\u202f000).",
	);
});

test('what is not shown is said to be not shown, with the signed difference', () => {
	const paired = pairedFigures(
		twenty,
		twenty.map((value, i) => value + (i % 2 ? 0.2 : -0.1)),
		0.95,
	);
	const sentence = pointSentence({ ...base, choices: { halfBus: figures(2.95), virtualNeutral: figures(3) }, paired });
	expect(sentence).toMatch(
		/^At rated neither choice is shown to be better: half-bus has the smaller error in 10 and virtual neutral in 10 of 20 drives/,
	);
	expect(sentence).toContain('95\u00a0% interval −0.20° to +0.10°');
});

test('lost lock, torque not reached and a reading grid that rules the spread are said with it', () => {
	const sentence = pointSentence({
		...base,
		gridSpread: 2.2,
		choices: { halfBus: figures(2.95, { lost: 3 }), virtualNeutral: figures(3, { torqueNotReached: 80 }) },
		paired: pairedFigures(twenty, twenty, 0.95),
	});
	expect(sentence).toContain('Lock was lost in 3 of 80 half-bus runs.');
	expect(sentence).toContain('The torque was not reached in 80 virtual neutral runs.');
	// 2 · 2.2² ≥ 3²
	expect(sentence).toMatch(
		/The time between readings alone spreads crossings by 2\.20° \(standard deviation\), at least half of the variance for both choices: no tighter part takes that away\.$/,
	);
});

test('a mean torque above the one asked for is said, but not of a choice that loses lock, nor below 5 %', () => {
	const words = (halfBus: object, virtualNeutral: object): string =>
		pointSentence({
			...base,
			choices: { halfBus: figures(2.95, halfBus), virtualNeutral: figures(3, virtualNeutral) },
			paired: pairedFigures(twenty, twenty, 0.95),
		});
	expect(words({ meanTorque: 0.112 }, { meanTorque: 0.12 })).toContain(
		'The mean torque is 112 mN·m with half-bus and 120 mN·m with virtual neutral, above the 100 mN·m asked for:'.replace(
			/(?<=\d) (?=mN)/g,
			'\u00a0',
		),
	);
	expect(words({ meanTorque: 0.104 }, { meanTorque: 0.106 })).toContain(
		'The mean torque is 106\u00a0mN·m with virtual',
	);
	expect(words({ meanTorque: 0.106 }, { meanTorque: 0.106 })).toContain(
		'The mean torque is 106\u00a0mN·m with both choices, above',
	);
	expect(words({ meanTorque: 0.104 }, { meanTorque: 0.13, lost: 1 })).not.toContain('mean torque');
});

test('where the typical drive loses lock, no finite difference is quoted', () => {
	const lost = twenty.map(() => Infinity);
	const sentence = pointSentence({
		...base,
		choices: { halfBus: figures(Infinity, { lost: 20 }), virtualNeutral: figures(3) },
		paired: pairedFigures(lost, twenty, 0.95),
	});
	expect(sentence).toContain('virtual neutral is better: the typical half-bus drive loses lock');
	expect(sentence).not.toContain('Infinity');
});

test('where the typical drive loses lock with either choice, it is not said of one alone', () => {
	const lost = new Float64Array(50).fill(Infinity);
	const sentence = pointSentence({
		...base,
		choices: { halfBus: figures(Infinity, { lost: 50 }), virtualNeutral: figures(Infinity, { lost: 39 }) },
		paired: pairedFigures(
			lost,
			lost.map((_, i) => (i < 11 ? 30 : Infinity)),
			0.95,
		),
	});
	expect(sentence).toContain(
		'virtual neutral is better: with either choice the typical drive loses lock, and virtual neutral has the smaller error in 11 of 50 drives',
	);
});

test('drives lost with both are equal: the middle one may show nothing though the sign test does', () => {
	// 40 better, 45 lost with both, 15 worse
	const halfBus = Float64Array.from({ length: 100 }, (_, i) => (i < 40 ? 2 : i < 85 ? Infinity : 3));
	const virtualNeutral = Float64Array.from({ length: 100 }, (_, i) => (i < 40 ? 2.3 : i < 85 ? Infinity : 2.5));
	const paired = pairedFigures(halfBus, virtualNeutral, 0.95);
	expect(paired).toMatchObject({ better: 'halfBus', medianDifference: 0 });
	const sentence = pointSentence({ ...base, choices: { halfBus: figures(3), virtualNeutral: figures(2.5) }, paired });
	expect(sentence).toMatch(
		/^At rated half-bus is better, though not in the middle of the drives, where the two are equal: it has the smaller error in 40 of 100 drives, virtual neutral in 15 \(sign test: p\u00a0=\u00a01\.0\s×\s10⁻³\)/,
	);
});

test('where most drives are lost with both, no difference is told', () => {
	const halfBus = Float64Array.from({ length: 20 }, (_, i) => (i < 9 ? 2 : Infinity));
	const virtualNeutral = Float64Array.from({ length: 20 }, (_, i) => (i < 9 ? 2 + (i - 4) / 10 : Infinity));
	const paired = pairedFigures(halfBus, virtualNeutral, 0.95);
	expect(paired).toMatchObject({ better: 'not shown', medianDifference: null, interval: null, ties: 12 });
	const sentence = pointSentence({
		...base,
		choices: { halfBus: figures(Infinity), virtualNeutral: figures(Infinity) },
		paired,
	});
	expect(sentence).toMatch(/in 4 and virtual neutral in 4 of 20 drives; most of them lose lock with both\.$/);
});

test('an interval that reaches 0 is that of how far the better choice is better', () => {
	// half-bus smaller in 51, equal in 34, larger in 15
	const halfBus = Float64Array.from({ length: 100 }, (_, i) => (i < 51 ? 2 - i / 100 : i < 85 ? 3 : 4));
	const virtualNeutral = Float64Array.from({ length: 100 }, (_, i) => (i < 51 ? 2.5 : i < 85 ? 3 : 3.5));
	const paired = pairedFigures(halfBus, virtualNeutral, 0.95);
	expect(paired.better).toBe('halfBus');
	expect(paired.interval?.[1]).toBe(0);
	const sentence = pointSentence({ ...base, choices: { halfBus: figures(2), virtualNeutral: figures(2.5) }, paired });
	expect(sentence).toMatch(/is better by 0\.\d\d° \(95\u00a0% interval 0\.00° to 0\.\d\d°\)/);
});

test('median differences and medians may point either way: then both are told', () => {
	const halfBus = twenty;
	const virtualNeutral = twenty.map((value) => value + 0.1);
	const sentence = pointSentence({
		...base,
		choices: { halfBus: figures(3.01), virtualNeutral: figures(2.95) },
		paired: pairedFigures(halfBus, virtualNeutral, 0.95),
	});
	expect(sentence).toContain(
		'is better by 0.10° (95\u00a0% interval 0.10° to 0.10°) on the same drives: it has the smaller error in 20 of 20 drives',
	);
	expect(sentence).toContain(
		'do not show it: 95\u00a0% of commutations lie within 3.01°, and 2.95° with virtual neutral.',
	);
});

test('without a finished drive nothing is shown', () => {
	const none = { halfBus: figures(Number.NaN), virtualNeutral: figures(Number.NaN) };
	const paired = pairedFigures(new Float64Array(), new Float64Array(), 0.95);
	expect(pointSentence({ ...base, choices: none, paired })).toBe('At rated no drive was finished: nothing is shown.');
});
