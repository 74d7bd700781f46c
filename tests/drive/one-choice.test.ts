import { expect, test } from 'vitest';
import { choiceNames } from '../../shared/drive/drive.ts';
import { simulateChoice, simulatePair } from '../../shared/drive/simulate-pair.ts';
import { unitDrives } from '../../shared/study/unit-drives.ts';
import { smallScenario } from '../study/small-scenario.ts';

test('a choice simulated alone gives its record in the pair, to the last bit, whatever ran before it', () => {
	const compensation = { halfBus: 50e-6, virtualNeutral: 50e-6 };
	const plan = { scenario: smallScenario(), seed: 'one choice', compensation };
	const options = { chances: true, interpolated: true };
	let runs = 0;
	for (const unit of [0, 1, 2]) {
		for (const { drive, noise } of unitDrives(plan, unit)) {
			const pair = simulatePair(drive, noise, options);
			for (const name of choiceNames) {
				expect(simulateChoice(drive, noise, name, options)).toEqual(pair[name]);
				expect(pair[name].measured).toBeGreaterThan(0);
				runs += 1;
			}
		}
	}
	// 3 units at 2 points, with every start, both choices
	expect(runs).toBe(3 * 2 * Number(plan.scenario.values['trial.starts']) * 2);
});
