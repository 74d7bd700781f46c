import { expect, test } from 'vitest';
import { spreadGroups } from '../../shared/origins/spread-groups.ts';
import { partSlots } from '../../shared/sampling/draw-parts.ts';
import { startSlots } from '../../shared/sampling/draw-start.ts';
import { scenarioOfDefaults } from '../sampling/first-demo.ts';
import { oneSpeed } from './one-speed.ts';

const demo = scenarioOfDefaults();
const groupOf = (id: string, source: 'lot' | number): string | undefined => {
	const slot = partSlots.findIndex((one) => one.id === id && one.source === source);
	return spreadGroups(demo, 0).find(({ parts }) => parts.includes(slot))?.id;
};

test('every base uniform of a unit and of a start lies in exactly one group', () => {
	const groups = spreadGroups(demo, 0);
	const parts = groups.flatMap((group) => group.parts).sort((a, b) => a - b);
	const starts = groups.flatMap((group) => group.starts).sort((a, b) => a - b);
	expect(parts).toEqual(partSlots.map((_, slot) => slot));
	expect(starts).toEqual(startSlots.map((_, slot) => slot));
	expect(new Set(groups.map(({ name }) => name)).size).toBe(groups.length);
});

test('a resistor takes its own temperature coefficient with it; what all coefficients share stands alone', () => {
	expect(groupOf('sensing.divider.top', 1)).toBe('phaseDivider');
	expect(groupOf('sensing.virtualNeutral.ground', 0)).toBe('star');
	const owners = Array.from({ length: 12 }, (_, place) => groupOf('sensing.resistorCoefficient', place));
	// order of build-drive.ts: divider top a b c, bottom a b c, bus top, bus bottom, star a b c, ground
	expect(owners).toEqual([...Array(6).fill('phaseDivider'), ...Array(2).fill('busDivider'), ...Array(4).fill('star')]);
	expect(groupOf('sensing.resistorCoefficient', 'lot')).toBe('sensing.resistorCoefficient');
	expect(groupOf('motor.placement', 2)).toBe('motor.placement');
});

test('a group varies where one of its uniforms changes something: with all tolerances 0 only the moment does', () => {
	const varying = (scenario: Parameters<typeof spreadGroups>[0]) =>
		spreadGroups(scenario, 0)
			.filter(({ varies }) => varies)
			.map(({ id }) => id);
	expect(varying(oneSpeed({}))).toEqual(['moments']);
	expect(varying(oneSpeed({ 'motor.placement': 1 }))).toEqual(['motor.placement', 'moments']);
	// coupling and phase of a ring that is not there change nothing
	expect(varying(oneSpeed({ 'noise.ringCoupling': 0.2 }))).toEqual(['moments']);
	const ringing = oneSpeed({});
	expect(varying({ ...ringing, values: { ...ringing.values, 'noise.ringAmplitude': 5 } })).toEqual([
		'ringing',
		'moments',
	]);
	expect(() => spreadGroups(demo, demo.points.length)).toThrow(RangeError);
});
