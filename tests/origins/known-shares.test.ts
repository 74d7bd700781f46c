import { expect, test } from 'vitest';
import { middleUniforms } from '../../shared/origins/drive-design.ts';
import { smoothFigures } from '../../shared/origins/smooth-figures.ts';
import { spreadGroups } from '../../shared/origins/spread-groups.ts';
import { summariseOrigins } from '../../shared/origins/summarise-origins.ts';
import { partSlots } from '../../shared/sampling/draw-parts.ts';
import type { Scenario } from '../../shared/scenario/scenario.ts';
import { oneSpeed } from './one-speed.ts';
import { provenance } from './provenance.ts';

const compensation = { halfBus: 78e-6, virtualNeutral: 78e-6 };
/** Peak EMF at 3000 rev/min, V, and gain of the phase divider, of the demo's nominal values. */
const emf = (0.03 * 3000 * 2 * Math.PI) / 60;
const gain = 4.7 / 26.7;

function shares(scenario: Scenario, rows: number) {
	const groups = spreadGroups(scenario, 0);
	const moving = groups.filter(({ varies }) => varies);
	const drives = rows * (2 + moving.length);
	const design = { kind: 'pickFreeze', seed: 'known', point: 0, groups: moving } as const;
	const { figures } = smoothFigures({ scenario, point: 0, compensation, design, phases: 0 }, 0, drives);
	const done = new Uint8Array(drives).fill(1);
	return summariseOrigins({ scenario, point: 0, groups, figures, done, correlations: null, provenance }).choices;
}

test('where only the star resistors vary, the star owes all of the virtual neutral’s spread and none of half-bus', () => {
	const { halfBus, virtualNeutral } = shares(oneSpeed({ 'sensing.virtualNeutral.star': 0.01 }), 100);
	const star = virtualNeutral.groups[0];
	expect(star?.id).toBe('star');
	// the moment of the start is left, and moves smooth figures by less than 0.01°
	expect(star?.total.value).toBeGreaterThan(0.95);
	expect(Math.abs((star?.first.value ?? 0) - 1)).toBeLessThan(0.1);
	expect(star?.first.low).toBeLessThan(1);
	expect(virtualNeutral.groups.find(({ id }) => id === 'moments')?.total.value).toBeLessThan(0.05);
	expect(halfBus.groups.find(({ id }) => id === 'star')).toMatchObject({ first: { value: 0 }, total: { value: 0 } });
});

test('placement ±1° and offset ±40 mV share the variance as their closed forms say: 66/34 half-bus, 46/54 virtual neutral', () => {
	const { halfBus, virtualNeutral } = shares(
		oneSpeed({ 'motor.placement': 1, 'sensing.comparator.offset': 0.04 }),
		400,
	);
	// Placement moves a phase's crossing by itself. An offset behind the divider moves it by 30° δ/(g E) on the EMF's
	// ramp of 2E in 60°; against a resistor star only ⅔ of the ramp is seen (both from the phase equations).
	const offset = (30 * 0.04) / (gain * emf);
	for (const [origins, seen] of [
		[halfBus, 1],
		[virtualNeutral, 1.5],
	] as const) {
		const share = 1 / (1 + (seen * offset) ** 2);
		const of = (id: string) => origins.groups.find((group) => group.id === id);
		// four standard errors of an index pooled over three independent phases at 400 rows
		for (const kind of ['first', 'total'] as const) {
			expect(Math.abs((of('motor.placement')?.[kind].value ?? 0) - share)).toBeLessThan(0.08);
			expect(Math.abs((of('sensing.comparator.offset')?.[kind].value ?? 0) - (1 - share))).toBeLessThan(0.08);
		}
		// uniform: half-width/√3
		expect(origins.spread).toBeCloseTo(Math.sqrt((1 + (seen * offset) ** 2) / 3), 1);
		expect(Math.abs(origins.together)).toBeLessThan(0.1);
	}
});

test('1 % in the upper bus resistor moves half-bus crossings by 30° (V/2)(Δg/g)/E = 0.35°, falling and rising apart', () => {
	const scenario = oneSpeed({ 'sensing.halfBus.top': 0.01 });
	const slot = partSlots.findIndex(({ id, source }) => id === 'sensing.halfBus.top' && source === 0);
	const drives = [0.5, 1 - 2 ** -53].map((u) => {
		const drive = middleUniforms();
		drive.parts[slot] = u;
		return drive;
	});
	const { figures } = smoothFigures(
		{ scenario, point: 0, compensation, design: { kind: 'given', drives }, phases: 8 },
		0,
		2,
	);
	// first-order worst case of a divider: Δg/g = t (1 − g); the terminal crosses at half the bus
	const change = (30 * 12 * 0.01 * (48.7 / 53.4)) / emf;
	for (let kind = 0; kind < 6; kind += 1) {
		const moved = (figures[12 + kind] as number) - (figures[kind] as number);
		// a lower threshold is passed later by a falling EMF (even kinds), sooner by a rising one
		expect(Math.abs(moved - (kind % 2 === 0 ? change : -change))).toBeLessThan(0.015);
		expect(figures[18 + kind]).toBe(figures[6 + kind]);
	}
});
