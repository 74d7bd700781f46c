import { expect, test } from 'vitest';
import { changedInputs } from '../../shared/changes/changed-inputs.ts';
import { smallScenario } from '../study/small-scenario.ts';

const before = smallScenario();

test('a scenario against itself, and one written differently that resolves to the same, have changed by nothing', () => {
	expect(changedInputs(before, before)).toEqual([]);
	const same = smallScenario({ supply: { voltage: { value: '48 V', range: '5 %' } }, lesson: 'another' });
	expect(changedInputs(before, same)).toEqual([]);
});

test('a value, a tolerance, a condition of one point and a range are told by name with all digits, and nothing else is', () => {
	const after = smallScenario({
		sensing: { divider: { top: { value: '22.1k', mismatch: '0.5 %', basis: 'measured' } } },
		points: [
			{ name: 'fast', speed: 6000, torque: 0.05 },
			{ name: 'faster', speed: { value: 7000.5, range: '1 %' }, torque: 0.05 },
		],
	});
	const told = changedInputs(before, after).map(({ name, before: was, after: is }) => `${name}: ${was} → ${is}`);
	expect(told).toEqual([
		'phase divider, top: 22\u00a0kΩ → 22.1\u00a0kΩ',
		'tolerance of phase divider, top: mismatch ±1\u00a0%, uniform, assumed → mismatch ±0.5\u00a0%, uniform, measured',
		'speed at faster: 7000\u00a0rpm → 7000.5\u00a0rpm',
		expect.stringMatching(/^range of speed at faster: .* → ±1\u00a0%$/),
	]);
});

test('a point that came or went is one change; what a version does not know by name is told by its id', () => {
	const fewer = smallScenario({ points: [{ name: 'fast', speed: 6000, torque: 0.05 }] });
	expect(changedInputs(before, fewer)).toEqual([
		{ path: 'points["faster"]', name: 'operating point faster', before: 'there', after: 'none' },
	]);
	const other = { ...before, values: { ...before.values, 'motor.unheardOf': 3 } };
	expect(changedInputs(before, other)).toEqual([
		{ path: 'motor.unheardOf', name: 'motor.unheardOf', before: 'none', after: '3' },
	]);
});
