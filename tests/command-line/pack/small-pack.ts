import { type PackContents, packStudy } from '../../../src/command-line/pack/pack-study.ts';
import { smallScenario, smallScenarioText } from '../../study/small-scenario.ts';

const text = (words: string): Buffer => Buffer.from(words);

/** A pack of a few kB whose program and results are stand-ins: enough for what is checked of the zip. */
export const smallPack = (over: Partial<PackContents> = {}): Uint8Array =>
	packStudy({
		request: { scenario: smallScenario(), seed: 'two words', units: 7, until: { rule: 'number' } },
		scenarioText: smallScenarioText(),
		resultText: `${JSON.stringify({ figures: Array.from({ length: 30 }, (_, i) => i * i) })}\n`,
		version: '0.1.0',
		resultDigest: 'ab'.repeat(32),
		report: '<!doctype html><title>Report</title>',
		program: [
			{ path: 'study.js', bytes: text('import { x } from "./part-1.js";\nconsole.log(x);\n') },
			{ path: 'part-1.js', bytes: text('export const x = 1;\n'.repeat(20)) },
		],
		...over,
	});
