import { expect, test } from 'vitest';
import { applyGrade, nominalShifts } from '../../shared/grades/apply-grade.ts';
import { gradeCautions } from '../../shared/grades/cautions.ts';
import { makeGrade, nearestOfGrade } from '../../shared/grades/grade.ts';
import { resistorCount } from '../../shared/grades/resistor-groups.ts';
import type { Tolerance } from '../../shared/parameters/parameter.ts';
import { partsFromUniforms, partUniforms } from '../../shared/sampling/draw-parts.ts';
import { smallScenario } from '../study/small-scenario.ts';

const scenario = smallScenario();
const fivePercent = makeGrade(0, 0.05);

test('5 % of E24 buys 22 kΩ, 4.7 kΩ, 47 kΩ, 68 kΩ and 4.7 kΩ for 22, 4.7, 48.7, 66.5 and 4.75 kΩ', () => {
	// IEC 60063 E24 values on either side: 47 and 51, 62 and 68, 4.7 and 5.1
	const shifts = nominalShifts(scenario, 'all', fivePercent);
	expect(shifts.map(({ designed, purchasable }) => [designed, purchasable])).toEqual([
		[22e3, 22e3],
		[4.7e3, 4.7e3],
		[48.7e3, 47e3],
		[4.7e3, 4.7e3],
		[66.5e3, 68e3],
		[4.75e3, 4.7e3],
	]);
	expect(shifts[2]?.shift).toBeCloseTo(47 / 48.7 - 1, 12);
});

test('1 % of E96 moves 22 kΩ to 22.1 kΩ, and of E24 and E96 leaves it; nearest is the smaller ratio', () => {
	expect(nominalShifts(scenario, 'divider', makeGrade(0, 0.01))[0]?.purchasable).toBe(22.1e3);
	expect(nominalShifts(scenario, 'divider', makeGrade(0, 0.01, ['E24', 'E96']))[0]?.purchasable).toBe(22e3);
	// √(66.5 · 68) = 67.2458 < 67.248 < 67.25, the middle of the two
	expect(nearestOfGrade(67.248e3, { series: ['E24', 'E96'] })).toBe(68e3);
});

test('a grade of the bus divider touches its two resistors and nothing else', () => {
	const graded = applyGrade(scenario, 'busDivider', fivePercent);
	const changed = (a: Readonly<Record<string, unknown>>, b: Readonly<Record<string, unknown>>): string[] =>
		Object.keys(a).filter((id) => JSON.stringify(a[id]) !== JSON.stringify(b[id]));
	expect(changed(scenario.values, graded.values)).toEqual(['sensing.halfBus.top']);
	expect(changed(scenario.tolerances, graded.tolerances)).toEqual(['sensing.halfBus.top', 'sensing.halfBus.bottom']);
	expect(graded.points).toBe(scenario.points);
});

test('nominals alone have no tolerance, the tolerance alone no shift, neither has neither', () => {
	const id = 'sensing.virtualNeutral.star';
	const at = (effect: Parameters<typeof applyGrade>[3]) => {
		const graded = applyGrade(scenario, 'star', makeGrade(0.02, 0.005, ['E24']), effect);
		return [graded.values[id], graded.tolerances[id]?.lot, graded.tolerances[id]?.mismatch];
	};
	expect(at('both')).toEqual([68e3, 0.02, 0.005]);
	expect(at('nominals')).toEqual([68e3, 0, 0]);
	expect(at('tolerance')).toEqual([66.5e3, 0.02, 0.005]);
	expect(at('neither')).toEqual([66.5e3, 0, 0]);
});

test('the same uniforms scaled: 5 % deviates five times as far as 1 % on every resistor, and nothing else moves', () => {
	const deviations = (mismatch: number) =>
		partsFromUniforms(applyGrade(scenario, 'all', makeGrade(0, mismatch)), partUniforms('grades', 7));
	const [tight, loose] = [deviations(0.01), deviations(0.05)];
	for (const [id, tightOnes] of Object.entries(tight)) {
		const factor = /\.(top|bottom|star|ground)$/.test(id) ? 5 : 1;
		[tightOnes].flat().forEach((deviation, i) => {
			expect([loose[id]].flat()[i], id).toBeCloseTo(factor * deviation, 14);
		});
	}
});

test("an array's resistors of one value share the absolute deviation and differ by the ratio tolerance at most", () => {
	const graded = applyGrade(scenario, 'divider', makeGrade(0.01, 0.001));
	let widest = 0;
	for (let unit = 0; unit < 200; unit += 1) {
		const tops = partsFromUniforms(graded, partUniforms('array', unit))['sensing.divider.top'] as readonly number[];
		const [least, most] = [Math.min(...tops), Math.max(...tops)];
		// 2 · 0.1 % from one to the other, times the common 1 %
		expect(most - least).toBeLessThanOrEqual(0.002 * 1.01 + 1e-12);
		widest = Math.max(widest, Math.abs(least), Math.abs(most));
	}
	expect(widest).toBeGreaterThan(0.009);
	expect(widest).toBeLessThanOrEqual(1.01 * 1.001 - 1 + 1e-12);
});

test('what the scenario states already stays as it is, so that not a digit moves', () => {
	const graded = applyGrade(scenario, 'busDivider', makeGrade(0, 0.01, ['E24', 'E96']));
	expect(graded).toEqual(scenario);
	expect(graded.tolerances['sensing.halfBus.top']).toBe(scenario.tolerances['sensing.halfBus.top']);
});

test('a gapped distribution loses the next tighter grade; measured deviations give way to the grade and are cautioned about', () => {
	const id = 'sensing.halfBus.top';
	const of = (tolerance: Tolerance, mismatch: number) =>
		applyGrade({ ...scenario, tolerances: { [id]: tolerance } }, 'busDivider', makeGrade(0, mismatch)).tolerances[id];
	const gapped = {
		scale: 'relative',
		lot: 0,
		mismatch: 0.01,
		distribution: 'gapped',
		gap: 0.005,
		basis: 'assumed',
	} as const;
	expect(of(gapped, 0.05)).toMatchObject({ distribution: 'gapped', mismatch: 0.05, gap: 0.02 });
	expect(of(gapped, 0.0001)).toMatchObject({ distribution: 'normal', mismatch: 0.0001 });
	const measured = { ...gapped, distribution: 'measured', mismatch: 0, gap: undefined, measured: [0.001] } as const;
	expect(of(measured as Tolerance, 0.05)).toMatchObject({ distribution: 'uniform', mismatch: 0.05 });
	const cautions = gradeCautions({ ...scenario, tolerances: { [id]: measured as Tolerance } }, 'busDivider', [
		fivePercent,
	]);
	expect(cautions.join()).toContain('bus divider, top');
});

test('a board carries 6 divider resistors, 2 of the bus divider or 4 of the star, and never the other threshold', () => {
	expect([resistorCount('divider', 'halfBus'), resistorCount('divider', 'virtualNeutral')]).toEqual([6, 6]);
	expect([resistorCount('busDivider', 'halfBus'), resistorCount('busDivider', 'virtualNeutral')]).toEqual([2, 0]);
	expect([resistorCount('star', 'halfBus'), resistorCount('star', 'virtualNeutral')]).toEqual([0, 4]);
	expect([resistorCount('all', 'halfBus'), resistorCount('all', 'virtualNeutral')]).toEqual([8, 10]);
});

test('arrays are cautioned about with the lone resistors that gain nothing from them: the bus divider, none of the phase dividers', () => {
	const array = [makeGrade(0.01, 0.001)];
	expect(gradeCautions(scenario, 'busDivider', array).join()).toContain(
		'A lone resistor (bus divider, top, bus divider, bottom) gains nothing from it.',
	);
	const [ofThree] = gradeCautions(scenario, 'divider', array);
	expect(ofThree).toContain('An array is taken to hold the resistors of one value');
	expect(ofThree).not.toContain('lone');
});
