import { expect, test } from 'vitest';
import { buildDrive, type Deviations } from '../../shared/drive/build-drive.ts';
import { parameters } from '../../shared/parameters/parameters.ts';
import { defaultValues } from '../../shared/scenario/default-values.ts';
import { runShard } from '../../shared/study/run-shard.ts';
import { smallScenario } from '../study/small-scenario.ts';

const values = { ...defaultValues(), 'detection.compensation': 0 };
const none = { halfBus: 0, virtualNeutral: 0 };

test('NaN and infinity in any part, condition or phase are refused by name, whatever they would do to the figures', () => {
	const varying = parameters.filter((one) => one.kind !== 'choice' && (one.role === 'part' || one.range !== undefined));
	for (const id of [...varying.map((one) => one.id), 'pwmPhase', 'ripplePhase', 'ringPhase']) {
		for (const wrong of [Number.NaN, Number.POSITIVE_INFINITY]) {
			expect(() => buildDrive(values, { [id]: wrong }, none)).toThrow(`deviation of ${id} must be a finite number`);
		}
	}
	expect(() => buildDrive(values, { 'sensing.divider.top': [0, 0, Number.NaN] }, none)).toThrow('sensing.divider.top');
	expect(() => buildDrive({ ...values, 'motor.phaseResistance': Number.NaN }, {}, none)).toThrow(
		'motor.phaseResistance must be a finite number here, not NaN',
	);
	expect(() => buildDrive(values, {}, { ...none, virtualNeutral: Number.NaN })).toThrow('virtual-neutral compensation');
});

test('a unit whose bus divider is NaN fails with that message and counts in no figure; the unit beside it runs', () => {
	const plan = { scenario: smallScenario(), seed: 'demo', compensation: none };
	const parts = (unit: number): Deviations => (unit === 0 ? { 'sensing.halfBus.top': Number.NaN } : {});
	const { failures, columns } = runShard(plan, 0, 2, { parts });
	expect(failures).toEqual([{ unit: 0, message: expect.stringContaining('sensing.halfBus.top') }]);
	const cells = columns.sectors.length / 2;
	expect(columns.sectors.slice(0, cells).every((sectors) => sectors === 0)).toBe(true);
	expect(columns.sectors.slice(cells).every((sectors) => sectors > 0)).toBe(true);
});
