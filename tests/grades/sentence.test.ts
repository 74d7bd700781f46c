import { expect, test } from 'vitest';
import { enoughSentence, mixSentence } from '../../shared/grades/sentence.ts';
import { verdict } from '../../shared/statistics/verdict.ts';
import { enough as wholeNumber } from '../../shared/words/figures.ts';

const requirement = { angleLimit: 10, quantile: 0.95, crossingsPerHour: 1, share: 0.9, confidence: 0.95 };
const of = (passed: number) => verdict({ passed, failed: 100 - passed }, 0.9);
const grade = (name: string, passed: number | null) => ({
	name,
	verdict: passed === null ? null : of(passed),
	nominalsShare: 0.5,
	toleranceShare: 0.75,
});
const fresh = (subject: string, passed: number) => ({ subject, seed: 's', confidence: 0.95, verdict: of(passed) });
const base = {
	choice: 'halfBus' as const,
	group: 'divider' as const,
	areArrays: false,
	isConcerned: true,
	grades: [grade('0.1 %', 100), grade('1 %', 98), grade('5 %', 60)],
	enough: { loosest: '1 %', fresh: [fresh('1 %', 97)], confirmed: '1 %' },
	shortcomings: { lock: 0, torque: 2, angle: 38, rate: 0 },
	exactShare: 0.99,
	units: { asked: 100, finished: 100, failed: 0 },
	requirement,
	confidenceOfEach: 0.95,
	isPartial: false,
};
const plain = (text: string): string => text.replaceAll(/[\u00a0\u202f]/g, ' ');

test('the loosest that holds, its confirmation, and why the next one does not', () => {
	expect(plain(enoughSentence(base))).toBe(
		'Half-bus: 1 % is the loosest grade that holds: with 95 % confidence at least 90 % of drives pass. ' +
			'Fresh drives confirm it (97.0 % pass, at least 92.4 %). ' +
			'The next looser, 5 %, fails (60.0 % pass; its nominal values alone 50.0 %, its tolerance alone 75.0 %).',
	);
});

test('a grade that fresh drives do not confirm is named with the next tighter one that they do', () => {
	const enough = { loosest: '1 %', fresh: [fresh('1 %', 92), fresh('0.1 %', 100)], confirmed: '0.1 %' };
	const text = plain(enoughSentence({ ...base, enough }));
	expect(text).toContain(
		'Fresh drives do not confirm it (92.0 % pass, at least 86.0 %: it is undecided), but fresh drives confirm the next tighter, 0.1 % (100 % pass',
	);
	const none = { loosest: '1 %', fresh: [fresh('1 %', 60), fresh('0.1 %', 80)], confirmed: null };
	const failing = plain(enoughSentence({ ...base, enough: none }));
	expect(failing).toContain('do not confirm it (60.0 % pass');
	expect(failing).toContain('No tighter one is left: take more drives.');
});

test('where the tightest fails or is undecided, the sentence says which, why, and what exact resistors would do', () => {
	const enough = { loosest: null, fresh: [], confirmed: null };
	const fails = plain(enoughSentence({ ...base, enough, grades: [grade('0.1 %', 60), grade('1 %', null)] }));
	expect(fails).toBe(
		'Half-bus: no grade of the phase dividers is shown to be enough: the tightest, 0.1 %, fails, 60.0 % of 100 drives pass, fewer than the 90 % required. ' +
			'Of the others 2 miss the torque, 38 exceed the angle. With exact resistors in their place 99.0 % pass. Looser grades are not judged after that.',
	);
	const open = plain(enoughSentence({ ...base, enough, grades: [grade('0.1 %', 94), grade('1 %', null)] }));
	expect(open).toContain(
		'not known: with the tightest, 0.1 %, 94.0 % of 100 drives pass, which neither shows nor rules out',
	);
	// a run of its own, and so the 100 that there are with those that are wanting
	const inAll = 100 + (of(94).moreUnits ?? 0);
	expect(open).toContain(`A run of about ${wholeNumber(inAll)} drives with another seed would decide it`);
	// ln 0.05/ln 0.9 = 28.4 and 0.05^(1/20) = 0.8609; ln 0.025/ln 0.9 = 35.01
	const few = { ...base, enough, units: { asked: 20, finished: 20, failed: 0 } };
	const twenty = { ...grade('0.1 %', null), verdict: verdict({ passed: 20, failed: 0 }, 0.9) };
	expect(plain(enoughSentence({ ...few, grades: [twenty] }))).toContain(
		'required. 20 drives are too few to show that it holds: even if all of them pass, they show 86.0 %; 29 could.',
	);
	expect(enoughSentence({ ...few, grades: [twenty], confidenceOfEach: 0.975 })).toContain('; 36 could.');
	const empty = { asked: 9, finished: 0, failed: 9 };
	expect(enoughSentence({ ...base, enough, units: empty })).toContain('no drive was finished');
});

test('a mix is shown by fresh drives alone; one that held in the search and not then is told', () => {
	const mix = (price: number, passed: number) => ({
		grades: { divider: '1 %', star: '5 %' },
		price,
		verdict: of(passed),
	});
	const test = (price: number, passed: number) => ({
		subject: { grades: { divider: '1 %', star: '5 %' }, price },
		seed: 's',
		confidence: 0.98,
		verdict: of(passed),
	});
	const searched = [mix(3, 98), mix(4, 99)];
	const second = { searched, fresh: [test(3, 90), test(4, 99)], confirmed: searched[1] ?? null };
	const text = plain(mixSentence('virtualNeutral', second, requirement, false));
	expect(text).toContain(
		'Virtual neutral: the cheapest mix that holds is phase dividers 1 %, star 5 % at 4: with 95 % confidence',
	);
	expect(text).toContain(
		'Cheaper, phase dividers 1 %, star 5 % at 3 held in the search but not on fresh drives (90.0 % pass',
	);
	const lost = plain(mixSentence('halfBus', { searched, fresh: [test(3, 90)], confirmed: null }, requirement, false));
	expect(lost).toContain('no mix is shown');
	const none = { searched: [mix(3, 10)], fresh: [], confirmed: null };
	expect(mixSentence('halfBus', none, requirement, false)).toBe('Half-bus: the only mix is not shown to hold.');
	expect(mixSentence('halfBus', none, requirement, true)).toContain('interrupted');
});
