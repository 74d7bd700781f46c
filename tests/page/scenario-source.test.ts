import { expect, test } from 'vitest';
import { demoSources, noScenario, tooLarge } from '../../src/page/model/scenario-source.ts';

test('the 24 V fan is the first of the demos, the others follow by name', () => {
	const files = demoSources({ 'a/spindle-48v.json': '', 'a/pump-12v.json': '', 'a/fan-24v.json': '' }).map(
		({ file }) => file,
	);
	expect(files).toEqual(['fan-24v.json', 'pump-12v.json', 'spindle-48v.json']);
});

test('a file of 5 MB is not read, and its size is told', () => {
	expect(tooLarge({ name: 'log.json', size: 5e6 })).toMatch(/log\.json has 5000 kB; .* at most 4000 kB/);
	expect(tooLarge({ name: 'fan.json', size: 3000 })).toBe('');
});

test('results of a study, whatever their length, and what is no text are called that', () => {
	const results = `{\n\t"format": "anglespread-study",\n\t"units": "${'A'.repeat(300_000)}"}`;
	expect(noScenario('study.json', results)).toBe(
		'study.json was not opened: it is the results of a study, which the command changes takes; a scenario is needed here.',
	);
	expect(noScenario('old.json', '{"name": "L\ufffdfter", "points": []}')).toBe(
		'old.json was not opened: it is no text in UTF-8: it is of another kind or encoding, or damaged.',
	);
	expect(noScenario('fan.json', '{"name": "Lüfter", "points": []}')).toBe('');
});
