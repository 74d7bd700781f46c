import { isUnsafeInTerminal, terminalLine } from '../../../shared/words/study-arguments.ts';
import { wrapText } from '../wrap-text.ts';
import { manifestPath, packed } from './manifest.ts';

/** What a pack says of itself to whoever unpacks it. */
export function packReadme({
	version,
	scenario,
	args,
	hasReport,
}: {
	readonly version: string;
	readonly scenario: string;
	readonly args: readonly string[];
	readonly hasReport: boolean;
}): string {
	const files: readonly (readonly [string, string])[] = [
		[packed.scenario, 'the scenario as it was written'],
		[packed.results, 'the results: figures, resolved scenario and every drive'],
		...(hasReport ? ([[packed.report, 'the report, to be read in any browser, offline']] as const) : []),
		['program/', 'the program that made them, plain JavaScript'],
		[manifestPath, 'size and SHA-256 of every file'],
	];
	return `${[
		wrapText(
			`Anglespread ${version}: a study of the scenario “${scenario}” with everything that makes its figures again.`,
		),
		'',
		...files.map(([path, meaning]) => `  ${path.padEnd(16)}${meaning}`),
		'',
		wrapText(
			'To make them again, unpack all of it, open a terminal in the folder and run this line. It needs Node 20.19 or newer and nothing else, no network and no other package:',
		),
		'',
		`  ${terminalLine(['node', packed.program, ...args])}`,
		...(isUnsafeInTerminal(args)
			? [
					'',
					wrapText(`Terminals read some signs in it each in their own way: ${manifestPath} has the words as they are.`),
				]
			: []),
		'',
		wrapText(
			`Then ${packed.again} is ${packed.results} again, byte by byte. Anglespread's own command checks this, and every file against the manifest:`,
		),
		'',
		'  npm run --silent reproduce -- FILE.zip',
		'',
		wrapText('A pack holds a program. Run it only if you trust where it comes from.'),
		'',
		wrapText(
			'All figures are simulated estimates. Bus voltages and rotating parts are dangerous: local codes, measurement on real hardware and qualified practice decide.',
		),
	].join('\n')}\n`;
}
