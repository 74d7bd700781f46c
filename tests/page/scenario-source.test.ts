import { expect, test } from 'vitest';
import { demoSources, tooLarge } from '../../src/page/model/scenario-source.ts';

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
