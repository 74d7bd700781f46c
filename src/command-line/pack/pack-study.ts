import { studyArguments } from '../../../shared/words/study-arguments.ts';
import type { StudyRequest } from '../../host/run-study.ts';
import { type Manifest, manifestPath, manifestText, packed, packedFile, packVersion } from './manifest.ts';
import { packReadme } from './pack-readme.ts';
import { writeZip, type ZipEntry } from './zip-file.ts';

/** What goes into a pack, all of it as it was or will be written to files of its own. */
export interface PackContents {
	readonly request: Pick<StudyRequest, 'scenario' | 'seed' | 'units' | 'until'>;
	/** The scenario file as it was read. */
	readonly scenarioText: string;
	readonly resultText: string;
	readonly version: string;
	readonly resultDigest: string;
	/** The printable page; null where this version makes none. */
	readonly report: string | null;
	/** The built program's files, by their names in one folder; `study.js` is the one to start. */
	readonly program: readonly ZipEntry[];
}

/** A study with everything that makes its figures again. The same contents give the same bytes. */
export function packStudy(contents: PackContents): Uint8Array {
	const { request, version, resultDigest, report } = contents;
	const args = [packed.scenario, ...studyArguments(request), '--json', packed.again];
	const files: ZipEntry[] = [
		file(packed.scenario, contents.scenarioText),
		file(packed.results, contents.resultText),
		...(report === null ? [] : [file(packed.report, report)]),
		...contents.program.map(({ path, bytes }) => ({ path: `program/${path}`, bytes })),
		// tells Node that these files are modules
		file('program/package.json', '{ "type": "module" }\n'),
	];
	const readme = file(
		'README.txt',
		packReadme({ version, scenario: request.scenario.name, args, hasReport: report !== null }),
	);
	const manifest: Manifest = {
		format: 'anglespread-pack',
		formatVersion: packVersion,
		version,
		scenario: request.scenario.name,
		seed: request.seed,
		resultDigest,
		arguments: args,
		files: [readme, ...files].map(packedFile),
	};
	return writeZip([file(manifestPath, manifestText(manifest)), readme, ...files]);
}

const file = (path: string, text: string): ZipEntry => ({ path, bytes: new TextEncoder().encode(text) });
