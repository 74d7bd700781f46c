import { expect, test } from 'vitest';
import type { Tolerance } from '../../../shared/parameters/parameter.ts';
import { readScenario } from '../../../shared/scenario/read-scenario.ts';
import { createInputs } from '../../../src/page/model/inputs/inputs.ts';
import { measuredSummary } from '../../../src/page/model/inputs/measured-part.ts';
import { partHelp } from '../../../src/page/model/inputs/part-help.ts';
import type { InputRow } from '../../../src/page/model/inputs/rows.ts';

function row(key: string, entry: string): InputRow {
	const inputs = createInputs(readScenario, () => {});
	inputs.open(`{"name":"x","sensing":${entry},"points":[{"name":"a","speed":900,"torque":0.009}]}`);
	const found = inputs.rows.value.find((one) => one.key === key);
	if (!found) throw new Error(key);
	return found;
}

test('a 1 % resistor of 22.3 kΩ is in E192 and not in E96, whose next are 22.1 and 22.6 kΩ; 22.35 kΩ is in no series', () => {
	const help = partHelp(row('sensing.divider.top', '{"divider":{"top":{"value":"22k3","mismatch":"1 %"}}}'));
	expect(help).toMatchObject({ standing: 'E192 value, not E96', lower: '22.1 kΩ', higher: '22.6 kΩ', nearest: null });
	const none = partHelp(row('sensing.divider.top', '{"divider":{"top":{"value":"22k35","mismatch":"1 %"}}}'));
	expect(none).toMatchObject({ standing: 'in no series', lower: '22.1 kΩ', higher: '22.6 kΩ', nearest: '22.6 kΩ' });
	expect(help?.grades.map(({ text }) => text)).toEqual(['0.1 %', '0.25 %', '0.5 %', '1 %', '2 %', '5 %']);
	expect(help?.grades.find(({ isCurrent }) => isCurrent)?.text).toBe('1 %');
});

test('a 10 % capacitor of 470 pF is an E12 value; what is no purchasable part has no help', () => {
	expect(partHelp(row('sensing.divider.capacitor', '{}'))).toMatchObject({
		series: 'E12',
		standing: 'E12 value',
		higher: '560 pF',
	});
	expect(partHelp(row('motor.phaseResistance', '{}'))).toBeNull();
	expect(partHelp(row('sensing.comparator.offset', '{}'))).toBeNull();
});

const assumed: Tolerance = { scale: 'relative', lot: 0, mismatch: 0.01, distribution: 'uniform', basis: 'assumed' };
const measured = (deviations: readonly number[]) => {
	const entry = { value: '22k', distribution: 'measured', measured: deviations };
	return measuredSummary(row('sensing.divider.top', `{"divider":{"top":${JSON.stringify(entry)}}}`), entry, assumed);
};

test('nine values warn that 20 % of further parts lie beyond the extremes: 2/(n + 1) for any distribution', () => {
	const summary = measured([-0.004, -0.003, -0.002, -0.001, 0, 0.001, 0.002, 0.003, 0.004]);
	expect(summary?.warnings).toEqual([
		expect.stringMatching(/^Only 9 measured values: about 20\.0.% of further parts lie beyond the measured extremes/),
	]);
	const facts = Object.fromEntries(summary?.facts ?? []);
	expect(facts.Measured).toBe('9 values');
	expect(facts.Extremes).toBe('−0.4\u00a0% to +0.4\u00a0%');
	// √(Σ d²/8) with Σ d² = 60·10⁻⁶
	expect(facts['Standard deviation']).toBe('0.274\u00a0%');
	expect(facts['In place of']).toBe('mismatch ± 1\u00a0%, uniform');
});

test('values beyond the assumed limits are counted, and a file in another unit is suspected', () => {
	const many = Array.from({ length: 40 }, (_, i) => (i - 19.5) * 1e-3);
	expect(measured(many)?.warnings).toEqual(['20 of 40 lie outside the assumed ± 1\u00a0%.']);
	expect(measured(many.map(() => -0.999))?.warnings.join(' ')).toMatch(
		/mean is −99\.9\u00a0% off nominal: is the file in Ω\?/,
	);
});

test('measured and assumed are drawn as shares that rise to 1', () => {
	const summary = measured(Array.from({ length: 40 }, (_, i) => (i - 19.5) * 1e-4));
	for (const steps of [summary?.measured ?? [], summary?.assumed ?? []]) {
		expect(steps.at(-1)?.share).toBe(1);
		expect(steps.every(({ deviation }, i) => i === 0 || deviation >= (steps[i - 1]?.deviation ?? 0))).toBe(true);
	}
});
