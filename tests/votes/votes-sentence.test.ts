import { expect, test } from 'vitest';
import type { CellFigures, ChoiceVotes, VotesResult } from '../../shared/votes/votes-result.ts';
import { votesSentence } from '../../shared/votes/votes-sentence.ts';
import { studyResult } from '../page/study-fixture.ts';

const cell = (votes: number, window: number, passing: number, all: number): CellFigures => ({
	votes,
	window,
	sigma: 0.008,
	compensation: 0,
	crossingsPerHour: { early: all, late: 0, missed: 0, all },
	withinRate: passing,
	withinAngle: passing,
	passing,
	acceptsAfter: [window],
});

/** 60 drives, of which 43 pass with 5 of 9. */
const someHold: ChoiceVotes = {
	cells: [cell(1, 1, 11, 1800), cell(5, 9, 43, 1200)],
	finalists: [{ votes: 5, window: 9, reasons: ['as stated', 'most drives pass'], predicted: 1200, confirmed: null }],
	base: { votes: 1, window: 1 },
	equalNoise: 0.0031,
};

const single = { votes: 1, window: 1 };
const fiveOfNine = { votes: 5, window: 9 };

/** The sentence on 60 drives, told apart by these. */
function sentenceOf(told: Pick<VotesResult, 'own' | 'filters' | 'choices' | 'tighter'>): string {
	const { provenance, requirement } = studyResult();
	return votesSentence({
		format: 'anglespread-votes',
		formatVersion: 2,
		provenance,
		requirement,
		unitsPerRun: 60,
		judged: 60,
		confirmationSeed: 'fresh',
		sigmas: [0.008],
		...told,
	});
}

/** So many of 60 drives pass with single readings and resistors of one grade tighter. */
function sentence(tighterPassing: number, halfBus = someHold): string {
	const graded = [cell(1, 1, tighterPassing, 1500)];
	return sentenceOf({
		own: { ...fiveOfNine, sigma: 0.008 },
		filters: [single, fiveOfNine],
		choices: { halfBus, virtualNeutral: someHold },
		tighter: { words: '1 % → 0.5 %', judged: 60, cells: { halfBus: graded, virtualNeutral: graded } },
	});
}

test('votes are worth more or less than a resistor grade only where 60 drives show it', () => {
	// 43 of 60 against 27, 40 and 57: 95 % limits of the difference −0.42 to −0.09, −0.21 to 0.11, 0.10 to 0.36
	expect(sentence(27)).toContain('by drives more than one resistor grade');
	expect(sentence(40)).toContain('by drives not shown to differ from one resistor grade');
	expect(sentence(57)).toContain('by drives less than one resistor grade');
});

test('where no drive keeps lock there is no rate, and nothing is concluded of votes', () => {
	const words = sentence(27, {
		cells: [cell(1, 1, 0, Number.NaN), cell(5, 9, 0, Number.NaN)],
		finalists: [
			{ votes: 5, window: 9, reasons: ['as stated'], predicted: Number.NaN, confirmed: null },
			{ votes: 1, window: 1, reasons: ['most drives pass'], predicted: Number.NaN, confirmed: null },
		],
		base: { votes: 5, window: 9 },
		equalNoise: null,
	});
	expect(words).toMatch(
		/^With half-bus sensing no drive keeps lock at every point: nothing can be told of votes\. With virtual neutral sensing 5 of 9, as stated, is best /,
	);
});

test('single readings stated, and best: no other filter does better, where others were tried', () => {
	const best: ChoiceVotes = {
		cells: [cell(1, 1, 43, 1e-20), cell(5, 9, 43, 1e-20)],
		finalists: [{ votes: 1, window: 1, reasons: ['as stated', 'most drives pass'], predicted: 1e-20, confirmed: null }],
		base: null,
		equalNoise: null,
	};
	const words = (filters: VotesResult['filters']): string =>
		sentenceOf({
			own: { ...single, sigma: 0.008 },
			filters,
			choices: { halfBus: best, virtualNeutral: best },
			tighter: null,
		});
	expect(words([single, fiveOfNine])).toMatch(
		/^With half-bus sensing no filter that was tried does better than the 1 of 1 stated: at 8.mV of noise 71\.7.% of drives keep the limits/,
	);
	expect(words([single])).toMatch(/^With half-bus sensing there is no other filter to hold the 1 of 1/);
});
