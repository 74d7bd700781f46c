import { formatQuantity } from '../../shared/parameters/format-quantity.ts';
import type { NumberRecord, ParameterRecord, Tolerance } from '../../shared/parameters/parameter.ts';
import { parameters } from '../../shared/parameters/parameters.ts';
import { limits, oneOf } from '../../shared/scenario/read-entry.ts';
import { capital } from '../../shared/words/capital.ts';
import { onScale } from '../../shared/words/quantity.ts';
import type { CommandRecord, HelpTopic, OptionRecord } from './command.ts';
import { padEnd, wrapText } from './wrap-text.ts';

type AnyCommand = CommandRecord<Readonly<Record<string, OptionRecord>>>;

/** A command's help, or what it tells of one of its topics. */
export function helpText(command: AnyCommand, asked: string | true): string {
	const topic = asked === true ? undefined : (command.topics ?? scenarioTopics)[asked];
	return topic?.text() ?? commandHelp(command);
}

/** Topics of every command that reads a scenario. */
export const scenarioTopics: Readonly<Record<string, HelpTopic>> = {
	parameters: { sentence: 'Every parameter a file may state, with unit, range and default.', text: parameterHelp },
};

/** What it is for, one worked line, its options. */
function commandHelp(command: AnyCommand): string {
	const options: [string, string][] = Object.entries(command.options).map(([name, { placeholder, sentence }]) => [
		placeholder ? `--${name} ${placeholder}` : `--${name}`,
		sentence,
	]);
	options.push(['--help', 'This text.']);
	for (const [word, { sentence }] of Object.entries(command.topics ?? scenarioTopics)) {
		options.push([`--help ${word}`, sentence]);
	}
	const files = command.secondFile === undefined ? command.file : `${command.file} ${command.secondFile}`;
	const width = Math.max(...options.map(([head]) => head.length)) + 4;
	return `${[
		wrapText(`${command.name}: ${command.purpose}`),
		'',
		`  npm run --silent ${command.name} -- ${files} [options]`,
		'',
		'For example',
		`  ${command.example}`,
		'',
		'Options',
		...options.map(([head, sentence]) =>
			wrapText(sentence, { first: padEnd(`  ${head}`, width), rest: ' '.repeat(width) }),
		),
		'',
		...command.remarks.map((remark) => wrapText(remark)),
	].join('\n')}\n`;
}

/** Every parameter, from its record. */
function parameterHelp(): string {
	const entries = parameters.map((parameter) =>
		[
			wrapText(`${parameter.id}  ${kindWords(parameter)}`, { first: '', rest: '    ' }),
			wrapText(`${capital(parameter.name)}, ${parameter.symbol}. ${parameter.sentence}`, {
				first: '    ',
				rest: '    ',
			}),
		].join('\n'),
	);
	return `${entries.join('\n')}\n`;
}

function kindWords(parameter: ParameterRecord): string {
	if (parameter.kind === 'choice') return `${oneOf(parameter.options)}; default ${parameter.default}`;
	const value =
		typeof parameter.default === 'number' ? formatQuantity(parameter.default, parameter.unit) : parameter.default;
	const tolerance = parameter.tolerance ? `, ${toleranceWords(parameter, parameter.tolerance)}` : '';
	const range = parameter.range
		? `, range ±\u00a0${onScale(parameter.range.scale, parameter.range.halfWidth, parameter.unit)}`
		: '';
	return `${limits(parameter)}; default ${value}${tolerance}${range}`;
}

function toleranceWords({ unit }: NumberRecord, { scale, lot, mismatch }: Tolerance): string {
	return `lot ±\u00a0${onScale(scale, lot, unit)}, mismatch ±\u00a0${onScale(scale, mismatch, unit)}`;
}
