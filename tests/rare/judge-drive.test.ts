import { expect, test } from 'vitest';
import { choiceNames } from '../../shared/drive/drive.ts';
import { inverseNormal } from '../../shared/maths/inverse-normal.ts';
import { figuresPerPoint, judgeDrive } from '../../shared/rare/judge-drive.ts';
import { judgeDrives } from '../../shared/rare/judge-drives.ts';
import { partSpace } from '../../shared/rare/part-space.ts';
import { partSlots, partUniforms } from '../../shared/sampling/draw-parts.ts';
import { runShard } from '../../shared/study/run-shard.ts';
import { unitJudge } from '../../shared/study/unit-passes.ts';
import { fewParts, fewPartsText } from './drive-space.ts';

const scenario = fewParts();
const plan = { scenario, seed: 'judge', compensation: { halfBus: 50e-6, virtualNeutral: 50e-6 } };
const space = partSpace(scenario);

test("a unit's own parts as a point of the space are judged as the study judges that unit", () => {
	const judge = unitJudge(scenario);
	for (let unit = 0; unit < 4; unit++) {
		const uniforms = partUniforms(plan.seed, unit);
		const point = Float64Array.from(space.slots, (slot) => inverseNormal(uniforms[slot] as number));
		const judged = judgeDrive(plan, space, point, unit);
		const { columns } = runShard(plan, unit, unit + 1);
		for (const [c, choice] of choiceNames.entries()) {
			expect(judged[choice]?.fails).toBe(!judge.passes(columns, 0, c));
			// the point gives back the uniforms to about 10⁻¹⁵
			expect(judged[choice]?.angle).toBeCloseTo(columns.judgedError[c] as number, 6);
		}
	}
});

test("a phase divider's smaller gain moves a falling crossing early and a rising one late: slopes of the smooth figures", () => {
	const top = space.slots.findIndex(
		(slot) => partSlots[slot]?.id === 'sensing.divider.top' && partSlots[slot]?.source === 0,
	);
	const [low, high] = [-0.5, 0.5].map((z) => {
		const point = new Float64Array(space.slots.length);
		point[top] = z;
		return judgeDrive(plan, space, point, 0, { figures: true }).halfBus?.figures;
	});
	// open phase a: sector kinds 2 (falling) and 5 (rising); the others see nothing of phase a's divider
	expect((high?.[2] ?? 0) - (low?.[2] ?? 0)).toBeLessThan(-0.1);
	expect((high?.[5] ?? 0) - (low?.[5] ?? 0)).toBeGreaterThan(0.1);
	for (const kind of [0, 1, 3, 4]) {
		expect(Math.abs((high?.[kind] ?? 9) - (low?.[kind] ?? 9))).toBeLessThan(
			0.5 * Math.abs((high?.[2] ?? 0) - (low?.[2] ?? 0)),
		);
	}
});

test('one choice alone, at one point alone, or no further than to failing, comes to what the whole drive comes to', () => {
	const points = [...fewPartsText.points, { name: 'slower', speed: '2000 rpm', torque: '20 mN·m' }];
	const strict = { ...plan, scenario: fewParts({ points, requirement: { angleLimit: '2.5°', quantile: '90 %' } }) };
	const failedAt = new Set<number | undefined>();
	for (let unit = 0; unit < 6; unit++) {
		const uniforms = partUniforms(strict.seed, unit);
		const point = Float64Array.from(space.slots, (slot) => inverseNormal(uniforms[slot] as number));
		const whole = judgeDrive(strict, space, point, unit, { figures: true });
		for (const choice of choiceNames) {
			const own = whole[choice];
			expect(judgeDrive(strict, space, point, unit, { choice, figures: true })).toEqual({ [choice]: own });
			expect(judgeDrive(strict, space, point, unit, { choice })[choice]).toEqual({
				...own,
				figures: new Float64Array(),
			});
			const failing = judgeDrive(strict, space, point, unit, { choice, untilFailed: true })[choice];
			expect(failing).toMatchObject({ fails: own?.fails, shortcoming: own?.shortcoming });
			failedAt.add(failing?.shortcoming?.point);
			for (const place of strict.scenario.points.keys()) {
				const at = judgeDrive(strict, space, point, unit, { choice, figures: true, only: place })[choice]?.figures;
				const expected = new Float64Array(at?.length ?? 0).fill(Number.NaN);
				const from = place * figuresPerPoint;
				expected.set(Float64Array.from(own?.figures ?? []).subarray(from, from + figuresPerPoint), from);
				expect(at).toEqual(expected);
			}
		}
	}
	// some fail at the first point, some at the second, some not at all
	expect(failedAt).toEqual(new Set([0, 1, undefined]));
});

test('drawn drives are a function of their number alone, ordinary draws of weight 1 are the study’s population', () => {
	const drives = { kind: 'drawn', mixture: { ordinary: 1, centres: [] }, first: 0 } as const;
	const whole = judgeDrives({ plan, drives }, 0, 5);
	const part = judgeDrives({ plan, drives }, 2, 4);
	expect(part.outcomes).toEqual(whole.outcomes.subarray(4, 8));
	expect(part.angles).toEqual(whole.angles.subarray(4, 8));
	expect([...whole.weights]).toEqual([1, 1, 1, 1, 1]);
});

test('a drive that cannot be simulated is recorded with its message and fails', () => {
	const points = new Float64Array(2 * space.slots.length);
	points.fill(Number.NaN, 0, space.slots.length);
	const wanted = { choice: 'halfBus', of: 'failing' } as const;
	const { outcomes, failures } = judgeDrives(
		{ plan, drives: { kind: 'given', points, moments: [0, 1], wanted } },
		0,
		2,
	);
	expect(failures).toHaveLength(1);
	expect(failures[0]?.unit).toBe(0);
	expect(outcomes[0]).toBe(5);
	expect(outcomes[2]).toBeLessThan(5);
});
