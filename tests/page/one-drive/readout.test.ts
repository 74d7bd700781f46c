import { expect, test } from 'vitest';
import { type DriveWindow, traceNames } from '../../../shared/one-drive/drive-window.ts';
import { readout } from '../../../src/page/model/one-drive/readout.ts';

/** A window of one column, every trace of which keeps within the same range. */
function windowOf(low: number, high: number): DriveWindow {
	const traces = Object.fromEntries(traceNames.map((name) => [name, [low, high]]));
	const run = { traces, sectors: [] };
	return { from: 0, to: 1, columns: 1, degreesPerSecond: 0, runs: { halfBus: run, virtualNeutral: run } } as never;
}
const torque = (low: number, high: number) => readout(windowOf(low, high), 0, 'halfBus').at(-1)?.value;

test('both ends of a range are as fine as four digits of the larger, and it is not torn at a line’s end', () => {
	expect(torque(-0.05155, 13.0199)).toBe('−0.05\u00a0…\u00a013.02\u00a0N·m');
	expect(torque(-0.7, 25.081)).toBe('−0.70\u00a0…\u00a025.08\u00a0N·m');
	expect(torque(-0.000004, 0.02013)).toBe('0\u00a0…\u00a00.02013\u00a0N·m');
	expect(torque(-1e-12, 1e-12)).toBe('0\u00a0N·m');
});
