import { expect, test } from 'vitest';
import { text, wholeNumber } from '../../src/command-line/common-options.ts';
import { readArguments } from '../../src/command-line/read-arguments.ts';

const command = {
	file: 'SCENARIO.json',
	options: {
		units: wholeNumber('N', 'How many.', 1000, [1, 5000]),
		seed: text('TEXT', 'Which.', 'demo', 10),
		readings: { sentence: 'More.', fallback: false },
	},
};
const read = (...argv: string[]) => readArguments(argv, command);

test('options are read in both spellings, and those not given have their fallback', () => {
	expect(read('a.json', '--units', '20', '--seed=x')).toEqual({
		file: 'a.json',
		secondFile: '',
		values: { units: 20, seed: 'x', readings: false },
		help: false,
		problems: [],
	});
	expect(read('--readings', 'a.json')).toMatchObject({ file: 'a.json', values: { units: 1000, readings: true } });
});

test('everything that is wrong is listed at once, each with its option and what was written', () => {
	const { problems } = read('--units', '0', '--seed', '', 'a.json', 'b.json', '--readings=yes', '--frobnicate');
	expect(problems.map(({ path, value }) => `${path} ${value}`.trim())).toEqual([
		'--units 0',
		'--seed',
		'--readings yes',
		'--frobnicate',
		'SCENARIO.json b.json',
	]);
	expect(problems[0]?.message).toContain('a whole number from 1 to 5000');
});

test('2.5, 1e3, −4 and 5001 are no number of drives from 1 to 5000', () => {
	for (const wrong of ['2.5', '1e3', '-4', '5001', 'many', ' 5']) {
		expect(read('a.json', `--units=${wrong}`).problems, wrong).toHaveLength(1);
	}
});

test('a misspelt option names the nearest one, and its value is not taken for a file', () => {
	const { file, problems } = read('a.json', '--unit', '5');
	expect(file).toBe('a.json');
	expect(problems).toEqual([{ path: '--unit', value: '', message: 'is not an option; did you mean --units?' }]);
});

test('a word after a single dash is one misspelt option, its value no file', () => {
	for (const argv of [['-units', '5'], ['-units=5'], ['-unit', '5']]) {
		const { file, values, problems } = read('a.json', ...argv);
		expect({ file, units: values.units }).toEqual({ file: 'a.json', units: 1000 });
		const [path] = (argv[0] as string).split('=');
		const value = argv[0]?.split('=')[1] ?? '';
		expect(problems).toEqual([{ path, value, message: 'is not an option; did you mean --units?' }]);
	}
	expect(read('a.json', '-readings').problems.map(({ message }) => message)).toEqual([
		'is not an option; did you mean --readings?',
	]);
	expect(read('a.json', '-h').help).toBe(true);
	expect(read('a.json', '-help').help).toBe(true);
	// a value may begin with a dash
	expect(read('a.json', '--seed', '-units')).toMatchObject({ values: { seed: '-units' }, problems: [] });
});

test('after an option like none, a word is its value where no file is wanted any more, else a file', () => {
	expect(read('a.json', '--frobnicate', 'x').problems.map(({ path }) => path)).toEqual(['--frobnicate']);
	expect(read('--frobnicate', 'a.json')).toMatchObject({ file: 'a.json', problems: [{ path: '--frobnicate' }] });
});

test('an option given twice, one without its value, and a missing file are problems', () => {
	expect(read('a.json', '--seed', 'x', '--seed', 'y').problems[0]?.message).toContain('given twice');
	expect(read('a.json', '--units').problems[0]?.message).toContain('needs a value');
	expect(read().problems).toEqual([{ path: 'SCENARIO.json', value: '', message: 'is missing: name the file to read' }]);
});

test('what follows as an option is not the value of the one before: both are read, the empty one is a problem', () => {
	const { problems, values } = read('a.json', '--seed', '--units', '7');
	expect(problems.map(({ path, message }) => `${path} ${message}`)).toEqual([
		expect.stringMatching(/^--seed needs a value/),
	]);
	expect(values.units).toBe(7);
	expect(read('a.json', '--seed=--x').values.seed).toBe('--x');
	expect(read('a.json', '--seed=').problems[0]?.message).toContain('needs a value');
});

test('an unknown topic of help is a problem that lists the topics', () => {
	expect(read('--help', 'nonsense')).toMatchObject({
		help: false,
		problems: [{ path: '--help', value: 'nonsense', message: 'is no topic of help; the only one is parameters' }],
	});
	const bare = readArguments(['--help', 'parameters'], { ...command, topics: {} });
	expect(bare.problems[0]?.message).toBe('is no topic of help; this command has none');
	// a file beside it is no topic
	expect(read('a.json', '--help').help).toBe(true);
	expect(read('--help', 'a.json').help).toBe(true);
});

test('help can be asked for on the command or on the parameters', () => {
	expect(read('--help').help).toBe(true);
	expect(read('-h').help).toBe(true);
	expect(read('--help', 'parameters').help).toBe('parameters');
});
