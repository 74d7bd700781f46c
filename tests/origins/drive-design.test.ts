import { expect, test } from 'vitest';
import { type DriveDesign, drivesPerRow, driveUniforms } from '../../shared/origins/drive-design.ts';
import { spreadGroups } from '../../shared/origins/spread-groups.ts';
import { partUniforms } from '../../shared/sampling/draw-parts.ts';
import { scenarioOfDefaults } from '../sampling/first-demo.ts';

const groups = spreadGroups(scenarioOfDefaults(), 0);
const design: DriveDesign = { kind: 'pickFreeze', seed: 'rows', point: 0, groups };
const width = drivesPerRow(groups.length);
const at = (row: number, place: number) => driveUniforms(design, row * width + place);

test('drives A and B of row 3 are units 6 and 7 of the seed, alike in no uniform', () => {
	expect(at(3, 0).parts).toEqual(partUniforms('rows', 6));
	expect(at(3, 1).parts).toEqual(partUniforms('rows', 7));
	const [a, b] = [at(3, 0), at(3, 1)];
	for (const of of ['parts', 'start'] as const)
		a[of].forEach((u, slot) => {
			expect(u).not.toBe(b[of][slot]);
		});
});

test("the drive of each group is A with that group's uniforms from B, and the groups together turn A into B", () => {
	const [a, b] = [at(5, 0), at(5, 1)];
	const taken = { parts: Float64Array.from(a.parts), start: Float64Array.from(a.start) };
	groups.forEach((group, place) => {
		const mixed = at(5, 2 + place);
		mixed.parts.forEach((u, slot) => {
			const isTaken = group.parts.includes(slot);
			expect(u).toBe(isTaken ? b.parts[slot] : a.parts[slot]);
			if (isTaken) taken.parts[slot] = u;
		});
		mixed.start.forEach((u, slot) => {
			const isTaken = group.starts.includes(slot);
			expect(u).toBe(isTaken ? b.start[slot] : a.start[slot]);
			if (isTaken) taken.start[slot] = u;
		});
	});
	expect(taken).toEqual(b);
});

test('given drives are handed out by number, and none beyond the last', () => {
	const given: DriveDesign = { kind: 'given', drives: [at(0, 0), at(0, 1)] };
	expect(driveUniforms(given, 1)).toEqual(at(0, 1));
	expect(() => driveUniforms(given, 2)).toThrow(RangeError);
});
