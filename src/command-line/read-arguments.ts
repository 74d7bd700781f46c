import { parseArgs } from 'node:util';
import { nearestName } from '../../shared/scenario/nearest-name.ts';
import type { Problem } from '../../shared/scenario/scenario.ts';
import { list } from '../../shared/words/list.ts';
import type { Arguments, CommandRecord, OptionRecord, OptionValues } from './command.ts';
import { scenarioTopics } from './help.ts';

/** A command's arguments as its record declares them, with everything that is wrong with them. Never throws. */
export function readArguments<Options extends Readonly<Record<string, OptionRecord>>>(
	argv: readonly string[],
	{
		options,
		file: fileWord,
		secondFile: secondWord,
		topics = scenarioTopics,
	}: Pick<CommandRecord<Options>, 'options' | 'file' | 'secondFile' | 'topics'>,
): Arguments<Options> {
	const declared = Object.entries(options).map(
		([name, { read }]) => [name, { type: read ? 'string' : 'boolean' }] as const,
	);
	const parsed = parseArgs({
		args: argv.map((word, place) => (isLeftOpen(word, argv[place + 1], options) ? `${word}=` : word)),
		options: { ...Object.fromEntries(declared), help: { type: 'boolean', short: 'h' } },
		allowPositionals: true,
		strict: false,
		tokens: true,
	});
	const tokens = wholeWords(parsed.tokens, argv);
	const values: Record<string, unknown> = Object.fromEntries(
		Object.entries(options).map(([name, { fallback }]) => [name, fallback]),
	);
	const problems: Problem[] = [];
	const files: string[] = [];
	const given = new Map<string, number>();
	let help: Arguments<Options>['help'] = false;
	const wanted = secondWord === undefined ? [fileWord] : [fileWord, secondWord];
	const isTopic = (word: string): boolean => Object.hasOwn(topics, word);
	for (const [place, token] of tokens.entries()) {
		if (token.kind === 'positional' && !isValueOfUnknown(tokens[place - 1], options, files.length < wanted.length))
			files.push(token.value);
		if (token.kind !== 'option') continue;
		if (token.name === 'help') {
			help = true;
			continue;
		}
		const report = (message: string): void =>
			void problems.push({ path: token.rawName, value: shortened(token.value ?? ''), message });
		const option = isDeclared(token, options) ? options[token.name] : undefined;
		const before = given.get(token.name) ?? 0;
		if (option === undefined) report(unknownOption(token.name, options));
		else if (before > 0 && option.repeats === undefined) report('is given twice; keep one of the two');
		else if (before > 0 && before === option.repeats) report(`is given more than ${before} times`);
		else if (!option.read) {
			if (token.value === undefined) values[token.name] = true;
			else report('takes no value');
		} else if (token.value === undefined || token.value === '')
			report(`needs a value: ${token.rawName} ${option.placeholder ?? ''}`);
		else {
			const reading = option.read(token.value);
			if ('problem' in reading) report(reading.problem);
			else if (before > 0) {
				values[token.name] = [...(values[token.name] as unknown[]), ...(reading.value as unknown[])];
			} else values[token.name] = reading.value;
		}
		given.set(token.name, before + 1);
	}
	const asked = tokens.find((_, place) => isHelp(tokens[place - 1]));
	if (help && asked?.kind === 'positional' && /^[a-z-]+$/i.test(asked.value) && !isTopic(asked.value)) {
		const known = Object.keys(topics);
		const there = known.length === 0 ? 'this command has none' : known.length === 1 ? 'the only one is' : 'there are';
		const message = `is no topic of help; ${[there, list(known)].filter(Boolean).join(' ')}`;
		problems.splice(0, problems.length, { path: '--help', value: shortened(asked.value), message });
		return { file: '', secondFile: '', values: values as OptionValues<Options>, help: false, problems };
	}
	if (help) help = files.find(isTopic) ?? true;
	for (const word of wanted.slice(files.length)) {
		problems.push({ path: word, value: '', message: 'is missing: name the file to read' });
	}
	const known = files.slice(0, wanted.length);
	for (const other of files.slice(wanted.length)) {
		const message = `is one file too many, after ${known.join(' and ')}; npm keeps options for itself that do not come after “--”`;
		problems.push({ path: wanted.at(-1) ?? '', value: other, message });
	}
	const [file = '', secondFile = ''] = known;
	return { file, secondFile, values: values as OptionValues<Options>, help, problems };
}

const isHelp = (token: Token | undefined): boolean => token?.kind === 'option' && token.name === 'help';

/** Whether an option that takes a value is followed by the next option instead. */
function isLeftOpen(word: string, next: string | undefined, options: Readonly<Record<string, OptionRecord>>): boolean {
	const name = word.replace(/^--/, '');
	return (
		word !== name &&
		Object.hasOwn(options, name) &&
		options[name]?.read !== undefined &&
		next?.startsWith('--') === true
	);
}

type Token = NonNullable<ReturnType<typeof parseArgs>['tokens']>[number];

/** A word after a single dash, `-units`, comes as an option a letter: here as the one option that was meant. */
function wholeWords(tokens: readonly Token[], argv: readonly string[]): readonly Token[] {
	return tokens.flatMap((token, place): Token[] => {
		const [, word, value] = /^-([^-=][^=]+)(?:=(.*))?$/.exec(argv[token.index] ?? '') ?? [];
		if (token.kind !== 'option' || token.rawName.startsWith('--') || word === undefined) return [token];
		if (tokens[place - 1]?.index === token.index) return [];
		const inline = value === undefined ? { value, inlineValue: undefined } : { value, inlineValue: true as const };
		return [{ kind: 'option', index: token.index, name: word, rawName: `-${word}`, ...inline }];
	});
}

/** Options are written with two dashes, but for `-h`. */
const isDeclared = (
	{ name, rawName }: { readonly name: string; readonly rawName: string },
	options: Readonly<Record<string, OptionRecord>>,
): boolean => rawName.startsWith('--') && Object.hasOwn(options, name);

/** What follows a misspelt option that takes a value is that value, not a file; so where it is like none and no file is wanted. */
function isValueOfUnknown(
	before: Token | undefined,
	options: Readonly<Record<string, OptionRecord>>,
	isFileWanted: boolean,
): boolean {
	if (before?.kind !== 'option' || before.value !== undefined || isDeclared(before, options)) return false;
	const near = nearestName(before.name, Object.keys(options));
	return near === undefined ? !isFileWanted : options[near]?.read !== undefined;
}

function unknownOption(name: string, options: Readonly<Record<string, OptionRecord>>): string {
	const known = Object.keys(options);
	const near = nearestName(name, known);
	return near === undefined
		? `is not an option; known are ${known.map((one) => `--${one}`).join(', ')} and --help`
		: `is not an option; did you mean --${near}?`;
}

/** Enough to recognise what was written. */
const shortened = (text: string): string => (text.length > 60 ? `${text.slice(0, 59)}…` : text);
