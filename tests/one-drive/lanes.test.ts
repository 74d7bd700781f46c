import { expect, test } from 'vitest';
import { driveWindow } from '../../shared/one-drive/drive-window.ts';
import { lanesOf, laneY } from '../../shared/one-drive/lanes.ts';
import { driveEvents, nextEvent } from '../../src/page/model/one-drive/drive-events.ts';
import { readout } from '../../src/page/model/one-drive/readout.ts';
import { windowTable } from '../../src/page/model/one-drive/window-table.ts';
import { demoPlan } from './demo-plan.ts';

const drive = { plan: demoPlan('fan-24v.json'), unit: 19, point: 0, start: 3 };
const whole = driveWindow({ drive, from: 0, to: 0, columns: 300 });

test('every trace has a path through every column, inside the picture where it is not clipped', () => {
	const lanes = lanesOf(whole, 'halfBus', 20);
	for (const lane of lanes) {
		expect(lane.high).toBeGreaterThan(lane.low);
		for (const { trace, d } of lane.paths) {
			expect(d, trace).toMatch(/^M0\.5 /);
			expect(d.match(/[ML]/g)).toHaveLength(300);
			const heights = [...d.matchAll(/[ V](-?[\d.]+)(?=[LMV]|$)/g)].map(([, y]) => Number(y));
			if (lane.marks === null) {
				expect(Math.min(...heights)).toBeGreaterThanOrEqual(lane.top - 0.1);
				expect(Math.max(...heights)).toBeLessThanOrEqual(lane.top + lane.height + 0.1);
			}
		}
	}
	const tops = lanes.map(({ top }) => top);
	expect(tops).toEqual([...tops].sort((a, b) => a - b));
});

test('a lane of several traces names each beside its subject', () => {
	const named = lanesOf(whole, 'halfBus', 20)
		.filter(({ paths }) => paths.length > 1)
		.map(({ subject, paths }) => [subject, ...paths.map(({ words }) => words)]);
	expect(named).toEqual([
		['half-bus, V', 'sense', 'threshold'],
		['virtual neutral, V', 'sense', 'threshold'],
		['winding currents, A', 'a', 'b', 'c'],
	]);
});

test('sense lanes show what was read when votes were cast', () => {
	for (const lane of lanesOf(whole, 'halfBus', 20).filter(({ unit, marks }) => unit === 'V' && marks)) {
		const { readings } = whole.runs[lane.marks ?? 'halfBus'];
		for (let at = 0; at < readings.length; at += 5) {
			if (readings[at + 3] !== 1 && readings[at + 3] !== 2) continue;
			const y = laneY(lane, readings[at + 1] as number);
			expect(y).toBeGreaterThan(lane.top);
			expect(y).toBeLessThan(lane.top + lane.height);
		}
	}
});

test('terminals, currents and torque are those of the choice that is picked', () => {
	const [one, other] = (['halfBus', 'virtualNeutral'] as const).map((choice) =>
		lanesOf(whole, choice, 20).find(({ name }) => name === 'torque'),
	);
	expect(one?.paths[0]?.d).not.toBe(other?.paths[0]?.d);
});

test('events are in the order of time, and stepping goes through all of them and back', () => {
	for (const kind of ['accepted', 'true', 'commutation'] as const) {
		const events = driveEvents(whole, 'virtualNeutral', kind);
		expect(events.length).toBe(36);
		const times: number[] = [];
		for (let event = nextEvent(events, 0, 1); event; event = nextEvent(events, event.time, 1)) times.push(event.time);
		expect(times).toEqual(events.map(({ time }) => time));
		expect(nextEvent(events, times[5] as number, -1)?.time).toBe(times[4]);
		expect(nextEvent(events, times[0] as number, -1)).toBeNull();
	}
});

test('false crossings of a noisy drive are told with size, direction and cause', () => {
	const noisy = { ...drive, plan: demoPlan('fan-24v.json', { 'noise.sigma': 0.25 }) };
	const events = driveEvents(driveWindow({ drive: noisy, from: 0, to: 0, columns: 10 }), 'halfBus', 'false');
	expect(events.length).toBeGreaterThan(2);
	expect(events.map(({ words }) => words).join('\n')).toMatch(
		/ms, half-bus, sector \d+ \(.*\): early false crossing, \d+\.\d+° early: noise or ringing carried the vote/,
	);
});

test('what stands under the cursor is named with unit, angle and sector', () => {
	const rows = readout(whole, whole.end / 2, 'halfBus');
	expect(rows.map(({ name }) => name)).toEqual([
		'time',
		'rotor',
		'half-bus',
		'virtual neutral',
		'terminals a, b, c',
		'currents a, b, c',
		'torque',
	]);
	expect(rows[1]?.value).toMatch(/^\d+\.\d°, sector \d+ \(/);
	expect(rows[4]?.value.match(/V/g)).toHaveLength(3);
	expect(readout(whole, whole.to, 'halfBus')[6]?.value).toMatch(/\d/);
	expect(readout(whole, 2 * whole.end, 'halfBus')[6]?.value).toBe('–');
});

test('the table of the window has a row for each column and both ends of each trace', () => {
	const { header, rows } = windowTable(whole, 'halfBus');
	expect(rows).toHaveLength(300);
	expect(header).toHaveLength(2 + 2 * (4 + 7));
	expect(rows.every((row) => row.length === header.length)).toBe(true);
	expect(rows.at(-1)?.[1]).toBeCloseTo(whole.to, 9);
});
