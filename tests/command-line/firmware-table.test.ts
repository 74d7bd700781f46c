import { expect, test } from 'vitest';
import { firmwareTable } from '../../src/command-line/firmware-table.ts';
import { runFirmwareInPool } from '../../src/host/run-firmware.ts';
import { inlinePool } from '../grades/inline-pool.ts';
import { smallScenario } from '../study/small-scenario.ts';

test('where all drives lost lock their verdict is shown; cut short in the first round there is no table', async () => {
	// a divider that passes little over half of what the thresholds are made for: no crossing is found
	const lost = smallScenario({
		sensing: { divider: { top: '40k' } },
		detection: { compensation: '60 µs', blanking: '50°' },
	});
	const result = await runFirmwareInPool({ scenario: lost, seed: 'lost', units: 10 }, inlinePool());
	expect(result.choices.halfBus).toMatchObject({ rounds: 0, confirmed: { after: { passed: 0 } } });
	const text = firmwareTable(result);
	expect(text).toMatch(/── half-bus ──.*lock lost.*fails.*── virtual neutral ──/s);

	const untuned = { ...result.choices.halfBus, confirmed: null };
	const stopped = firmwareTable({ ...result, choices: { halfBus: untuned, virtualNeutral: untuned } });
	expect(stopped).not.toMatch(/── half-bus|before +after/);
});
