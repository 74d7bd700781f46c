import type { Verdict } from '../../shared/statistics/verdict.ts';
import type { Provenance } from '../../shared/study/result.ts';
import { percent } from '../../shared/words/figures.ts';
import { exitCodes } from './exit-codes.ts';
import { plainText } from './plain-text.ts';
import { padEnd, wrapText } from './wrap-text.ts';

/** One thing that a release gate asks for. */
export interface GateCheck {
	readonly name: string;
	readonly outcome: Verdict['decision'];
	/** What was found, in a sentence. */
	readonly sentence: string;
}

/** What every result of a gate says of its origin. */
export type GateGround = Pick<Provenance, 'version' | 'seed' | 'scenario' | 'scenarioDigest' | 'partial'> &
	Partial<Pick<Provenance, 'resultDigest'>>;

/** A check of a requirement by its verdict. */
export const verdictCheck = (name: string, { decision, share, low, high }: Verdict): GateCheck => ({
	name,
	outcome: decision,
	sentence: `${percent(share)} of drives pass; limits ${percent(low, 'down')} and ${percent(high, 'up')}`,
});

/** What --require found, for the end of a build log: plain ASCII, the answer first. */
export function gateLines(
	command: string,
	checks: readonly GateCheck[],
	{ partial, seed, version, scenario, scenarioDigest, resultDigest }: GateGround,
	exitCode: number,
): string {
	const left = checks.filter(({ outcome }) => outcome !== 'holds').length;
	const found = left === 0 ? 'PASSED' : `NOT PASSED, ${left} of ${checks.length} not shown to hold`;
	const answer = partial
		? 'INTERRUPTED, nothing is shown'
		: exitCode === exitCodes.interrupted
			? `${found}, then INTERRUPTED before its files were whole`
			: found;
	const lines = [
		`Release gate (${command}): ${answer}; exit code ${exitCode}`,
		...checks.map(({ name, outcome, sentence }) =>
			wrapText(plainText(`${name}. ${sentence}`), { first: `  ${padEnd(outcome, 11)}`, rest: ' '.repeat(13) }),
		),
		wrapText(plainText(`${scenario}, seed ${seed}, version ${version}`), { first: '  ', rest: '  ' }),
		`  scenario ${scenarioDigest}`,
		...(resultDigest === undefined ? [] : [`  result   ${resultDigest}`]),
	];
	return `\n${lines.join('\n')}\n`;
}
