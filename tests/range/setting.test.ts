import { expect, test } from 'vitest';
import { retunedScenario, settingProblems, variantAt } from '../../shared/range/setting.ts';
import { smallScenario } from '../study/small-scenario.ts';

const scenario = smallScenario();
const at = (point: number | null, load: 'square' | 'constant' = 'square') => ({ scenario, point, load });

test('half the speed of a point takes a quarter of its torque on the square load line, all of it on the constant one', () => {
	const torque = (load: 'square' | 'constant', setting: Record<string, number>) =>
		variantAt(at(0, load), setting).points?.[0]?.values['operation.torque'];
	expect(torque('square', { 'operation.speed': 3000 })).toBe(0.05 / 4);
	expect(torque('constant', { 'operation.speed': 3000 })).toBe(0.05);
	expect(torque('square', { 'operation.speed': 3000, 'operation.torque': 0.07 })).toBe(0.07);
	expect(torque('square', { 'supply.voltage': 40 })).toBe(0.05);
});

test('a condition keeps its range about the value set, other points drop out, and the moments stay those of the point', () => {
	const variant = variantAt(at(1), { 'operation.speed': 3500 });
	expect(variant.points).toHaveLength(1);
	expect(variant.points?.[0]).toMatchObject({
		name: 'faster',
		values: { 'operation.speed': 3500 },
		ranges: { 'operation.speed': { scale: 'relative', halfWidth: 0.02 } },
	});
	expect(variant.pointKeys).toEqual([1]);
	expect(variant.values).toBeUndefined();
});

test('the firmware is tuned anew for a part or a setting, not for a condition', () => {
	expect(retunedScenario(at(null), { 'supply.voltage': 40 })).toBeNull();
	const retuned = retunedScenario(at(null), { 'supply.voltage': 40, 'sensing.divider.capacitor': 1e-9 });
	expect(retuned?.values['sensing.divider.capacitor']).toBe(1e-9);
	expect(retuned?.points).toBe(scenario.points);
});

test('values that parameters do not allow together are told with the setting they come from', () => {
	expect(settingProblems(at(null), { 'supply.voltage': 24 })).toEqual([]);
	const problems = settingProblems(at(null), { 'supply.voltage': 1, 'detection.majorityVotes': 5 });
	expect(problems.map(({ path }) => path.replaceAll('\u00a0', ' '))).toEqual(
		problems.map(() => 'supply.voltage = 1 V, detection.majorityVotes = 5'),
	);
	const words = problems.map(({ message }) => message).join('\n');
	expect(words).toContain('majority window of 3');
	expect(settingProblems(at(0), { 'operation.speed': 200e3, 'trial.measured': 24 })).toEqual([]);
	const heavy = smallScenario({ points: [{ name: 'slow', speed: 10, torque: 1 }] });
	expect(
		settingProblems({ scenario: heavy, point: 0, load: 'square' }, { 'operation.speed': 200e3 })[0]?.message,
	).toContain('load torque must be from 0 N·m to 1 kN·m');
});

test('a rule that is broken only where the firmware is tuned, at the speed stated, is told all the same', () => {
	const slow = smallScenario({ points: [{ name: 'slow', speed: 10, torque: 0.05 }] });
	const setting = { 'operation.speed': 6000, 'inverter.pwmFrequency': 200e3 };
	// 24 sectors of four pole pairs take 6 s at 10 rpm, and 2 % more at the slow end of its range
	const messages = settingProblems({ scenario: slow, point: 0, load: 'constant' }, setting).map(
		({ message }) => message,
	);
	expect(messages).toHaveLength(1);
	expect(messages[0]).toContain('9.8 rpm: one run would take 1224490 PWM periods');
	expect(settingProblems({ scenario: slow, point: 0, load: 'constant' }, { 'operation.speed': 6000 })).toEqual([]);
});
