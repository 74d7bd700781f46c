import { expect, it } from 'vitest';
import { choiceNames } from '../../shared/drive/drive.ts';
import { silence } from '../../shared/drive/noise.ts';
import { simulatePair } from '../../shared/drive/simulate-pair.ts';
import { runShard } from '../../shared/study/run-shard.ts';
import { unitDrives } from '../../shared/study/unit-drives.ts';
import { driveWith } from '../drive/drives.ts';
import { odexRun } from '../reference/odex-run.ts';
import { smallScenario } from '../study/small-scenario.ts';
import { runPeriods, shardPeriods } from './count-periods.ts';
import { demoScenario } from './demos.ts';

it('counts the periods of a run as odex, which keeps the time, does to 10⁻⁹', () => {
	const drive = driveWith({ 'trial.warmup': 2, 'trial.settle': 2, 'trial.measured': 2, 'detection.advance': 7 });
	const { time } = odexRun(drive, 'halfBus', { absolute: 1e-8, relative: 1e-8 });
	const periods = runPeriods(drive, simulatePair(drive, silence).halfBus);
	expect(Math.abs(periods - time * drive.inverter.pwmFrequency)).toBeLessThan(1e-9);
});

it.each([
	['small scenario', smallScenario(), 0],
	['12 V wet-rotor pump, of whose half-bus runs many lose lock', demoScenario('scenarios/pump-12v.json'), 3],
])('%s: the periods of a shard are counted to a hundredth of its runs, one by one', (_name, scenario, fewestLost) => {
	const plan = { scenario, seed: 'periods', compensation: { halfBus: 50e-6, virtualNeutral: 50e-6 } };
	let oneByOne = 0;
	let lost = 0;
	for (const { drive, noise } of [...unitDrives(plan, 3), ...unitDrives(plan, 4)]) {
		const pair = simulatePair(drive, noise);
		for (const choice of choiceNames) {
			oneByOne += runPeriods(drive, pair[choice]);
			if (pair[choice].lost) lost += 1;
		}
	}
	expect(lost).toBeGreaterThanOrEqual(fewestLost);
	// runs of 24 sectors, of which the last is here up to a tenth longer or shorter than counted
	const share = shardPeriods(plan, runShard(plan, 3, 5)) / oneByOne;
	expect(share).toBeGreaterThan(0.99);
	expect(share).toBeLessThan(1.01);
});
