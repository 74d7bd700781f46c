import { readFileSync } from 'node:fs';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { buildDrive } from '../../shared/drive/build-drive.ts';
import { parameters } from '../../shared/parameters/parameters.ts';
import { defaultValues } from '../../shared/scenario/default-values.ts';
import { isPlainLine } from '../../shared/scenario/plain-line.ts';
import { readScenario } from '../../shared/scenario/read-scenario.ts';
import type { Problem, Scenario } from '../../shared/scenario/scenario.ts';

const fan = readFileSync(new URL('../../scenarios/fan-24v.json', import.meta.url), 'utf8');
const point = { name: 'only', speed: 900, torque: '9 mN·m' };

const read = (file: object): Scenario => {
	const reading = readScenario(JSON.stringify({ name: 'test', points: [point], ...file }));
	if ('problems' in reading) throw new Error(JSON.stringify(reading.problems, null, 1));
	return reading.scenario;
};
const problemsOf = (text: string): readonly Problem[] => {
	const reading = readScenario(text);
	return 'problems' in reading ? reading.problems : [];
};
const problems = (file: object): readonly Problem[] =>
	problemsOf(JSON.stringify({ name: 'test', points: [point], ...file }));

test('a share given as a number of per cent is told what was meant', () => {
	const found = problems({ requirement: { quantile: 95, share: 1.2, confidence: '90' } });
	expect(found.map(({ path, message }) => [path, /did you mean .*/.exec(message)?.[0]])).toEqual([
		['requirement.quantile', 'did you mean 95 %?'],
		['requirement.share', 'did you mean 1.2 %?'],
		['requirement.confidence', 'did you mean 90 %?'],
	]);
});

test.each([
	['a list of boards, which the command board takes', { cases: [{ case: 1 }] }],
	['the results of a study, which the command changes takes', { format: 'anglespread-study', points: [] }],
])('%s: another kind of file is told as a whole', (words, file) => {
	expect(problemsOf(JSON.stringify(file)).map(({ path, message }) => `${path} ${message}`)).toEqual([
		`(file) is ${words}; a scenario is needed here`,
	]);
});

describe('a valid scenario', () => {
	test('of name and one point has the default of every parameter', () => {
		const scenario = read({});
		expect(scenario.values).toEqual({ ...defaultValues(), 'operation.speed': 900, 'operation.torque': 9e-3 });
		for (const record of parameters) {
			if (record.kind !== 'choice' && record.tolerance)
				expect(scenario.tolerances[record.id]).toEqual(record.tolerance);
		}
		expect(scenario.points[0]?.ranges).toEqual({
			'operation.speed': { scale: 'relative', halfWidth: 0.02 },
			'supply.voltage': { scale: 'relative', halfWidth: 0.05 },
			'supply.rippleAmplitude': { scale: 'relative', halfWidth: 0.2 },
		});
		expect(scenario.referencePoint).toBe(0);
	});

	test('may state every parameter by its id, each with its own default', () => {
		const file: Record<string, unknown> = {};
		for (const record of parameters) {
			if (record.kind !== 'choice' && record.stated) continue;
			const names = record.id.split('.');
			const leaf = names.pop() as string;
			let branch = file;
			for (const name of names) {
				branch[name] ??= {};
				branch = branch[name] as Record<string, unknown>;
			}
			branch[leaf] = record.default;
		}
		expect(read(file)).toEqual(read({}));
	});

	test('a point takes the common value and range unless it states its own', () => {
		const { points, values, referencePoint } = read({
			supply: { voltage: { value: '48 V', range: '10 %' } },
			points: [point, { ...point, name: 'low', voltage: '40 V' }, { ...point, name: 'exact', voltage: { range: 0 } }],
			referencePoint: 'low',
		});
		expect(points.map((p) => p.values['supply.voltage'])).toEqual([48, 40, 48]);
		expect(points.map((p) => p.ranges['supply.voltage']?.halfWidth)).toEqual([0.1, 0.1, undefined]);
		expect(referencePoint).toBe(1);
		expect(values['supply.voltage']).toBe(40);
	});

	test('35 mΩ on 0.35 Ω and 10 % are the same lot; 2 % of 120° are 2.4°', () => {
		const { tolerances } = read({
			motor: {
				phaseResistance: { value: 0.35, lot: '35 mΩ', mismatch: 0.02, distribution: 'normal', basis: 'data sheet' },
				flatTop: { lot: '2 %' },
				placement: { mismatch: 0.5 },
			},
		});
		const { lot, ...others } = tolerances['motor.phaseResistance'] ?? { lot: 0 };
		expect(lot).toBeCloseTo(0.1, 15);
		expect(others).toEqual({ scale: 'relative', mismatch: 0.02, distribution: 'normal', basis: 'data sheet' });
		expect(tolerances['motor.flatTop']?.lot).toBeCloseTo(2.4, 12);
		expect(tolerances['motor.placement']?.mismatch).toBe(0.5);
	});

	test('a bare number follows the stated scale: 0.007 Ω is 2 % of 0.35 Ω', () => {
		const { tolerances } = read({ motor: { phaseResistance: { mismatch: 0.007, scale: 'absolute' } } });
		expect(tolerances['motor.phaseResistance']?.mismatch).toBeCloseTo(0.02, 15);
	});

	test('out of 1 % resistors the 0.5 % ones are picked unless the file says otherwise', () => {
		const { tolerances } = read({
			sensing: {
				divider: {
					top: { mismatch: '1 %', distribution: 'gapped' },
					bottom: { mismatch: '1 %', distribution: 'gapped', gap: '0.25 %' },
				},
			},
		});
		expect(tolerances['sensing.divider.top']?.gap).toBe(0.005);
		expect(tolerances['sensing.divider.bottom']?.gap).toBe(0.0025);
	});

	test('measured deviations replace lot and mismatch', () => {
		const { tolerances } = read({ sensing: { comparator: { offset: { measured: ['1 mV', -0.002, '0.5 mV'] } } } });
		expect(tolerances['sensing.comparator.offset']).toEqual({
			scale: 'absolute',
			lot: 0,
			mismatch: 0,
			distribution: 'measured',
			measured: [1e-3, -2e-3, 0.5e-3],
			basis: 'measured',
		});
	});
});

describe('each mistake is a problem with path and remedy', () => {
	test.each<[string, object, string, string | RegExp]>([
		['misspelt', { motor: { phaseResistence: 1 } }, 'motor.phaseResistence', 'did you mean phaseResistance?'],
		['misplaced', { polePairs: 4 }, 'polePairs', 'did you mean motor.polePairs?'],
		['below its range', { motor: { phaseResistance: 0 } }, 'motor.phaseResistance', 'from 1 mΩ to 1 kΩ'],
		['not whole', { motor: { polePairs: 2.5 } }, 'motor.polePairs', 'a whole number from 1 to 50'],
		['not among the allowed', { detection: { intervalsAveraged: 4 } }, 'detection.intervalsAveraged', '1, 2, 3 or 6'],
		[
			'not an option',
			{ inverter: { chopping: 'soft' } },
			'inverter.chopping',
			'high-side, low-side, complementary or both',
		],
		['an unknown word', { detection: { compensation: 'auto' } }, 'detection.compensation', 'or nominal'],
		['in another unit', { motor: { phaseInductance: '1 Ω' } }, 'motor.phaseInductance', 'is in Ω'],
		['with a decimal comma', { supply: { voltage: '24,5 V' } }, 'supply.voltage', 'write the decimal point as "."'],
		[
			'a word for a whole number',
			{ motor: { polePairs: 'four' } },
			'motor.polePairs',
			'must be a whole number from 1 to 50',
		],
		['a list', { motor: { polePairs: [4] } }, 'motor.polePairs', 'neither a number nor a text'],
		['a group that is none', { motor: 4 }, 'motor', 'must be an object with some of polePairs'],
		['stated in common', { operation: { speed: 900 } }, 'operation.speed', 'is stated at each of the points'],
		[
			'a tolerance on a setting',
			{ inverter: { diodeDrop: { value: 0.7, lot: 0.1 } } },
			'inverter.diodeDrop.lot',
			'known are value',
		],
		[
			'a negative tolerance',
			{ motor: { phaseResistance: { lot: '-1 %' } } },
			'motor.phaseResistance.lot',
			'must not be negative',
		],
		[
			'a tolerance of 100 %',
			{ motor: { phaseResistance: { lot: '100 %' } } },
			'motor.phaseResistance',
			'must stay from 1 mΩ',
		],
		[
			'relative to zero',
			{ motor: { placement: { mismatch: '1 %' } } },
			'motor.placement.mismatch',
			'the nominal value is 0',
		],
		['a flat top beyond 170°', { motor: { flatTop: { value: 168, lot: '3°' } } }, 'motor.flatTop', 'from 60° to 170°'],
		[
			'no distribution',
			{ motor: { flatTop: { distribution: 'flat' } } },
			'motor.flatTop.distribution',
			'uniform, normal',
		],
		['no basis', { motor: { flatTop: { basis: 'guess' } } }, 'motor.flatTop.basis', 'measured, data sheet, assumed'],
		[
			'measured without values',
			{ motor: { flatTop: { distribution: 'measured' } } },
			'motor.flatTop.distribution',
			'list of deviations',
		],
		['an empty list', { motor: { flatTop: { measured: [] } } }, 'motor.flatTop.measured', 'at least one deviation'],
		[
			'a measured word',
			{ motor: { flatTop: { measured: [1, 'NaN'] } } },
			'motor.flatTop.measured[1]',
			'cannot be read',
		],
		[
			'measured beside lot',
			{ motor: { flatTop: { measured: [1], lot: 3 } } },
			'motor.flatTop.lot',
			'cannot stand beside measured',
		],
		[
			'a gap without need',
			{ motor: { flatTop: { gap: 1 } } },
			'motor.flatTop.gap',
			'needs the distribution to be gapped',
		],
		['no known gap', { motor: { flatTop: { distribution: 'gapped' } } }, 'motor.flatTop.gap', 'state gap'],
		[
			'a gap too wide',
			{ motor: { flatTop: { distribution: 'gapped', gap: 3 } } },
			'motor.flatTop.gap',
			'must be smaller',
		],
		[
			'a range beyond limits',
			{ supply: { voltage: { value: 24, range: '100 %' } } },
			'supply.voltage',
			'must stay from 1 V',
		],
		[
			'a percentage of °C',
			{ operation: { motorTemperature: { value: 80, range: '5 %' } } },
			'operation.motorTemperature.range',
			'a temperature has no percentage',
		],
		[
			'votes without readings',
			{ detection: { majorityWindow: 3, majorityVotes: 4 } },
			'detection.majorityVotes',
			'window of 3',
		],
		['ripple above the bus', { supply: { rippleAmplitude: 23 } }, 'points[0].rippleAmplitude', 'here down to 22.8 V'],
		[
			'copper gone negative',
			{ motor: { copperCoefficient: 0.02 }, operation: { motorTemperature: -60 } },
			'motor.copperCoefficient',
			'at least 0.1',
		],
		[
			'a divider filter of 870 periods',
			{ sensing: { divider: { capacitor: '10 µF' } } },
			'sensing.divider.capacitor',
			'must not exceed 200 PWM periods, 10 ms',
		],
		[
			'a star filter of 870 periods',
			{ sensing: { virtualNeutral: { capacitor: '10 µF' } } },
			'sensing.virtualNeutral.capacitor',
			'virtual neutral a time constant of 43',
		],
		[
			'a run without end',
			{ points: [{ ...point, speed: 1.1 }], inverter: { pwmFrequency: '500 kHz' } },
			'points[0].speed',
			'at most 1000000',
		],
		['no points', { points: [] }, 'points', '1 to 20'],
		['21 points', { points: Array.from({ length: 21 }, (_, i) => ({ ...point, name: `${i}` })) }, 'points', '1 to 20'],
		['twins', { points: [point, point] }, 'points[1].name', 'name of an earlier point'],
		[
			'a point without speed',
			{ points: [{ name: 'a', torque: 1 }] },
			'points[0].speed',
			'every point must state its speed',
		],
		['a point without name', { points: [{ speed: 900, torque: 1 }] }, 'points[0].name', '1 to 80 signs'],
		['a point that is none', { points: [7] }, 'points[0]', 'must be an object'],
		['a misspelt condition', { points: [{ ...point, voltge: 20 }] }, 'points[0].voltge', 'did you mean voltage?'],
		[
			'a share with a range',
			{ points: [{ ...point, share: { value: 1, range: 0.1 } }] },
			'points[0].share.range',
			'not a known name',
		],
		['no share at all', { points: [{ ...point, share: 0 }] }, 'points', 'above 0'],
		['an unknown reference', { referencePoint: 'fast' }, 'referencePoint', 'name of a point: only'],
		['a name that is none', { name: 7 }, 'name', 'must be a text'],
		['a name that would colour a terminal', { name: 'fan\u001b[31m' }, 'name', 'without control characters'],
		['a name that turns writing around', { name: 'fan\u202e' }, 'name', 'without control characters'],
		['a name of two lines', { name: 'fan\nslow' }, 'name', 'one line'],
		['invented in words', { invented: 'yes' }, 'invented', 'true or false'],
	])('%s', (_, file, path, remedy) => {
		const found = problems(file);
		expect(found.map((problem) => problem.path)).toEqual([path]);
		expect(found[0]?.message).toMatch(remedy);
		expect(found[0]?.value).not.toBe('');
		// what is told of it is written as it stands
		expect(isPlainLine(found[0]?.value ?? '')).toBe(true);
	});

	test('__proto__ and constructor are unknown names and change nothing', () => {
		const found = problemsOf(
			`{"name": "x", "__proto__": {"a": 1}, "motor": {"constructor": 1}, "points": [${JSON.stringify(point)}]}`,
		);
		expect(found.map((problem) => problem.path).sort()).toEqual(['__proto__', 'motor.constructor']);
	});

	test('five mistakes are five problems', () => {
		const found = problems({
			motor: { polePairs: 0, phaseResistence: 1 },
			detection: { majorityVotes: 9 },
			points: [{ ...point, speed: 'fast' }],
			lesson: '',
		});
		expect(found.map((problem) => problem.path).sort()).toEqual([
			'detection.majorityVotes',
			'lesson',
			'motor.phaseResistence',
			'motor.polePairs',
			'points[0].speed',
		]);
	});

	test('a wrong value is not blamed for its tolerance as well', () => {
		const found = problems({ supply: { voltage: { value: '325 volts', range: '30 V' } } });
		expect(found.map((problem) => problem.path)).toEqual(['supply.voltage.value']);
	});

	test.each(['', '[]', '7', 'null', '{', '{"name": "x"}', '\ufeff{}'])('%j is no scenario', (text) => {
		expect(problemsOf(text).length).toBeGreaterThan(0);
	});
});

describe('hostile texts', () => {
	/** Whatever comes back is either a drive that can be built or problems in words. */
	const outcome = (text: string): void => {
		const reading = readScenario(text);
		if ('problems' in reading) {
			expect(reading.problems.length).toBeGreaterThan(0);
			for (const { path, value, message } of reading.problems) {
				expect(path.length * value.length * message.length).toBeGreaterThan(0);
				expect(value.length).toBeLessThanOrEqual(60);
			}
		} else {
			for (const { values } of reading.scenario.points) {
				buildDrive({ ...reading.scenario.values, ...values }, {}, { halfBus: 0, virtualNeutral: 0 });
			}
		}
	};

	test('a valid file with any signs replaced never makes it throw', () => {
		const change = fc.record({ at: fc.nat(fan.length), cut: fc.nat(12), put: fc.string({ maxLength: 6 }) });
		fc.assert(
			fc.property(fc.array(change, { minLength: 1, maxLength: 3 }), (changes) => {
				outcome(changes.reduce((text, { at, cut, put }) => text.slice(0, at) + put + text.slice(at + cut), fan));
			}),
			{ numRuns: 1000 },
		);
	});

	test('a valid file with any value replaced by any other never makes it throw', () => {
		const values = [...fan.matchAll(/: ("[^"]*"|[\d.]+|true)/g)];
		const odd = fc.oneof(
			fc.jsonValue({ maxDepth: 2 }),
			fc.double(),
			fc.constantFrom('NaN', '1e999', '-0', '∞', '1e-400 V', '0x1', '__proto__', '22 kΩ', '5 %'),
		);
		fc.assert(
			fc.property(fc.nat(values.length - 1), odd, (index, value) => {
				const { index: at, 0: found } = values[index] as RegExpExecArray;
				outcome(`${fan.slice(0, at)}: ${JSON.stringify(value) ?? 'null'}${fan.slice(at + found.length)}`);
			}),
			{ numRuns: 1000 },
		);
	});

	test('any JSON at all never makes it throw', () => {
		fc.assert(fc.property(fc.json(), outcome));
	});

	test('256 kB of points is answered at once', () => {
		outcome(`{"name": "x", "points": [${Array(60_000).fill('{}').join(',')}]}`);
		outcome(`{${Array.from({ length: 12_000 }, (_, i) => `"key${i}": 1`).join(',')}}`);
	});
});

test('a condition whose own default range reaches beyond the limits is told of that range', () => {
	const [unstated] = problems({ points: [{ ...point, speed: '1 rpm' }] });
	expect(unstated).toMatchObject({ path: 'points[0].speed' });
	expect(unstated?.message).toMatch(/^speed with its range must stay from .*; none is stated, so this is its default/);
	const [stated] = problems({ points: [{ ...point, speed: { value: '1 rpm', range: '5 %' } }] });
	expect(stated?.message).toMatch(/^speed with its range must stay from [^;]*$/);
});
