import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { defaultValues } from '../../shared/scenario/default-values.ts';
import { type Board, readBoards } from '../../shared/scenario/read-boards.ts';

const reading = (file: unknown) => readBoards(JSON.stringify(file));
const board = (item: object): Board => {
	const read = reading({ cases: [item] });
	if ('problems' in read) throw new Error(JSON.stringify(read.problems));
	return read.boards[0] as Board;
};
const problems = (item: unknown) => {
	const read = reading({ cases: [item] });
	return 'problems' in read ? read.problems : [];
};

describe('boards', () => {
	test('a scenario taken for boards is called one, not listed name by name', () => {
		const read = readBoards(readFileSync(new URL('../../scenarios/fan-24v.json', import.meta.url), 'utf8'));
		expect('problems' in read && read.problems.map(({ path, message }) => `${path} ${message}`)).toEqual([
			'(file) is a scenario, which study and most other commands take; board takes a list of boards',
		]);
	});

	test('results of a study taken for boards are called that', () => {
		const read = readBoards('{"format":"anglespread-study","formatVersion":3,"points":[],"units":null}');
		expect('problems' in read && read.problems.map(({ path, message }) => `${path} ${message}`)).toEqual([
			'(file) is the results of a study, which the command changes takes; board takes a list of boards',
		]);
	});

	test('take every default, and 75 µs where a time is needed', () => {
		expect(board({})).toEqual({
			case: 1,
			values: { ...defaultValues(), 'detection.compensation': 75e-6 },
			deviations: {},
		});
	});

	test('state parameters by id and deviations one by one or for all instances', () => {
		const {
			case: number,
			values,
			deviations,
		} = board({
			case: 7,
			about: 'a comment',
			parameters: { 'motor.phaseResistance': '0.4 Ω', 'detection.window': 'off', 'sensing.converter.bits': 10 },
			deviations: {
				'sensing.divider.top': ['1 %', -0.01, 0],
				'sensing.halfBus.top': 0.005,
				'sensing.halfBus.bottom': [0.005],
				'sensing.comparator.offset': ['3 mV', 0, 0],
				'motor.placement': -0.5,
				'sensing.resistorCoefficient': Array(12).fill('50 ppm/K'),
				'supply.voltage': 0.03,
				pwmPhase: 0.4,
			},
			expected: { halfBus: {} },
		});
		expect(number).toBe(7);
		expect(values['motor.phaseResistance']).toBe(0.4);
		expect(values['detection.window']).toBe('off');
		expect(deviations).toEqual({
			'sensing.divider.top': [0.01, -0.01, 0],
			'sensing.halfBus.top': 0.005,
			'sensing.halfBus.bottom': [0.005],
			'sensing.comparator.offset': [3e-3, 0, 0],
			'motor.placement': -0.5,
			'sensing.resistorCoefficient': Array(12).fill(50e-6),
			'supply.voltage': 0.03,
			pwmPhase: 0.4,
		});
	});

	test('all reference traces are read, each with its own values and deviations', () => {
		const text = readFileSync(new URL('../data/reference-traces.json', import.meta.url), 'utf8');
		const traces = JSON.parse(text).cases as { case: number; parameters: object; deviations: object }[];
		const read = readBoards(text);
		expect('boards' in read && read.boards).toEqual(
			traces.map(({ case: number, parameters, deviations }) => ({
				case: number,
				values: { ...defaultValues(), 'detection.compensation': 75e-6, ...parameters },
				deviations,
			})),
		);
	});

	test.each<[string, object | number, string, string]>([
		[
			'an unknown parameter',
			{ parameters: { 'motor.polePair': 4 } },
			'parameters.motor.polePair',
			'did you mean motor.polePairs?',
		],
		[
			'an unknown deviation',
			{ deviations: { 'motor.polePairs': 0 } },
			'deviations.motor.polePairs',
			'not a known name',
		],
		['a value out of range', { parameters: { 'operation.speed': 0 } }, 'parameters.operation.speed', 'from 1 rpm'],
		[
			'compensation without a time',
			{ parameters: { 'detection.compensation': 'nominal' } },
			'parameters.detection.compensation',
			'must be a time',
		],
		['two of three phases', { deviations: { 'motor.placement': [0, 0] } }, 'deviations.motor.placement', 'a list of 3'],
		[
			'three of one',
			{ deviations: { 'sensing.halfBus.top': [0, 0, 0] } },
			'deviations.sensing.halfBus.top',
			'a single number',
		],
		['a phase above 1', { deviations: { pwmPhase: 1.2 } }, 'deviations.pwmPhase', 'from 0 to 1'],
		[
			'a part that cannot be',
			{ deviations: { 'motor.phaseResistance': [0, -1, 0] } },
			'deviations.motor.phaseResistance[1]',
			'from 1 mΩ to 1 kΩ',
		],
		[
			'a deviation that is none',
			{ deviations: { 'motor.placement': null } },
			'deviations.motor.placement',
			'neither a number nor a text',
		],
		[
			'more votes than readings',
			{ parameters: { 'detection.majorityVotes': 9 } },
			'parameters.detection.majorityVotes',
			'window of 3',
		],
	])('%s', (_, item, path, message) => {
		const found = problems(item);
		expect(found.map((problem) => problem.path)).toEqual([`cases[0].${path}`]);
		expect(found[0]?.message).toContain(message);
	});

	test('a file without cases, or with something else for one, is refused in words', () => {
		expect(reading({ boards: [] })).toMatchObject({ problems: [{ path: '(file).boards' }, { path: 'cases' }] });
		expect(reading({ cases: [] })).toMatchObject({ problems: [{ path: 'cases' }] });
		expect(reading({ cases: [7] })).toMatchObject({ problems: [{ path: 'cases[0]' }] });
		expect(readBoards('{')).toMatchObject({ problems: [{ path: '(file)' }] });
	});
});

test('what a board is called may not write control characters to a terminal', () => {
	expect(problems({ case: 'a\u0007' })).toMatchObject([
		{ path: 'cases[0].case', value: 'a\ufffd', message: 'must be one line without control characters' },
	]);
	expect(problems({ case: 'board µ–7' })).toEqual([]);
});
