import { readFileSync } from 'node:fs';
import { expect, test, vi } from 'vitest';
import { parameters } from '../../../shared/parameters/parameters.ts';
import { readScenario } from '../../../shared/scenario/read-scenario.ts';
import { createInputs } from '../../../src/page/model/inputs/inputs.ts';
import type { InputRow } from '../../../src/page/model/inputs/rows.ts';
import { inputSections } from '../../../src/page/model/inputs/sections.ts';
import { projectRoot } from '../../../src/tooling/project.mjs';

const fan = readFileSync(`${projectRoot}scenarios/fan-24v.json`, 'utf8');

function opened(text = fan) {
	const onEdit = vi.fn();
	const inputs = createInputs(readScenario, onEdit);
	inputs.open(text);
	const row = (key: string): InputRow => {
		const found = inputs.rows.value.find((one) => one.key === key);
		if (!found) throw new Error(`no row ${key}`);
		return found;
	};
	const scenario = () => {
		const { value } = inputs.reading;
		if (!('scenario' in value)) throw new Error(JSON.stringify(value.problems));
		return value.scenario;
	};
	return { inputs, onEdit, row, scenario };
}

test('every parameter has a row in one section, and those stated at the points one at each of the three', () => {
	const { inputs } = opened();
	const groups = inputSections.flatMap((section) => section.groups);
	expect(new Set(groups).size).toBe(groups.length);
	for (const record of parameters) {
		const rows = inputs.rows.value.filter((row) => row.record === record);
		expect(rows, record.id).toHaveLength(record.kind !== 'choice' && record.stated ? 3 : 1);
	}
});

test('"4k7" typed is 4.7 kΩ in the scenario and on the form; the row says what it was, and reset brings it back', () => {
	const { inputs, row, scenario, onEdit } = opened();
	inputs.type(row('sensing.divider.top'), 'value', '4k7');
	expect(scenario().values['sensing.divider.top']).toBe(4700);
	expect(row('sensing.divider.top').fields[0]?.text).toBe('4.7 kΩ');
	expect(row('sensing.divider.top').was).toBe('22\u00a0kΩ, mismatch 1\u00a0%');
	expect(inputs.changes.value).toBe(1);
	expect(onEdit).toHaveBeenCalledTimes(1);
	inputs.resetRow(row('sensing.divider.top'));
	expect(inputs.changes.value).toBe(0);
	expect(scenario().values['sensing.divider.top']).toBe(22e3);
});

test('another spelling of the same value is no change', () => {
	const { inputs, row } = opened();
	inputs.type(row('sensing.divider.top'), 'value', '22.0 kΩ');
	expect(row('sensing.divider.top').was).toBeNull();
});

test('a value out of range is told beside its field with the range in words, and nothing is taken over', () => {
	const { inputs, row } = opened();
	inputs.type(row('sensing.divider.top'), 'value', '5');
	expect(row('sensing.divider.top').fields[0]?.problem).toBe(
		'phase divider, top must be from 10\u00a0Ω to 100\u00a0MΩ',
	);
	expect('problems' in inputs.reading.value).toBe(true);
	inputs.type(row('sensing.divider.top'), 'mismatch', '-1 %');
	expect(row('sensing.divider.top').fields.find(({ field }) => field === 'mismatch')?.problem).toMatch(/half-width/);
	expect(inputs.sections.value.find(({ id }) => id === 'sensing')?.problems).toBe(1);
	inputs.type(row('points[1].speed'), 'value', '');
	expect(row('points[1].speed').fields[0]?.problem).toMatch(/is empty; write a value in rpm/);
});

test('a rule between two parameters is told at the first of them', () => {
	const { inputs, row } = opened();
	inputs.type(row('detection.majorityVotes'), 'value', '5');
	expect(row('detection.majorityVotes').fields[0]?.problem).toBe('must not exceed the majority window of 3 readings');
});

test('keys of one number are one step to undo; another visit to the field is another', () => {
	const { inputs, row, scenario } = opened();
	const key = 'sensing.divider.top';
	inputs.focus(key);
	for (const typed of ['3', '33', '33k']) inputs.type(row(key), 'value', typed);
	inputs.focus(key);
	inputs.type(row(key), 'value', '47k');
	inputs.undo();
	expect(scenario().values[key]).toBe(33e3);
	expect(inputs.redoWords.value).toBe('phase divider, top');
	inputs.undo();
	expect(scenario().values[key]).toBe(22e3);
	expect(inputs.undoWords.value).toBe('');
	inputs.redo();
	inputs.redo();
	expect(scenario().values[key]).toBe(47e3);
});

test('going back gives the very same scenario, so that its figures can be shown again', () => {
	const { inputs, row, scenario } = opened();
	const before = scenario();
	inputs.type(row('noise.sigma'), 'value', '8 mV');
	inputs.undo();
	expect(scenario()).toBe(before);
	inputs.type(row('noise.sigma'), 'value', '8 mV');
	inputs.reset();
	expect(scenario()).toBe(before);
	inputs.undo();
	expect(scenario().values['noise.sigma']).toBe(8e-3);
});

test('the text to save is the file as opened until it is edited, and reads back as what is on the form', () => {
	const { inputs, row, scenario } = opened();
	expect(inputs.text.value).toBe(fan);
	inputs.type(row('motor.flatTop'), 'lot', '5°');
	const again = readScenario(inputs.text.value);
	expect('scenario' in again && again.scenario).toEqual(scenario());
});

test('a broken file still has a form, with its problems beside the fields, and can be mended there', () => {
	const { inputs, row } = opened(
		'{"name":"x","noise":{"sigma":-1},"points":[{"name":"a","speed":900,"torque":0.009}]}',
	);
	expect(row('noise.sigma').fields[0]?.problem).toMatch(/comparator noise must be from 0\u00a0V to 5\u00a0V/);
	inputs.type(row('noise.sigma'), 'value', '1m');
	expect('scenario' in inputs.reading.value).toBe(true);
	const none = opened('not JSON');
	expect(none.inputs.document.value).toBeNull();
	expect(none.inputs.sections.value).toEqual([]);
});

const csv = (text: string, name = 'bench.csv') => ({ name, text: async () => text });

test('measured values replace the assumed distribution, as deviations from the nominal value', async () => {
	const { inputs, row, scenario } = opened();
	await inputs.measure(row('sensing.divider.top'), csv('value\n22k\n22.22k\n21.78k\n'));
	expect(scenario().tolerances['sensing.divider.top']).toMatchObject({
		distribution: 'measured',
		lot: 0,
		mismatch: 0,
		measured: [0, 0.01, -0.01],
		basis: 'measured',
	});
	expect(row('sensing.divider.top').measured).toBe(3);
	expect(row('sensing.divider.top').was).toBe('22\u00a0kΩ, mismatch 1\u00a0%');
	// another distribution brings the assumed tolerance back
	inputs.type(row('sensing.divider.top'), 'distribution', 'normal');
	expect(scenario().tolerances['sensing.divider.top']).toMatchObject({ distribution: 'normal', mismatch: 0.01 });
});

test('a wrong list of values is refused with its lines, and changes nothing', async () => {
	const { inputs, row, scenario } = opened();
	const before = scenario();
	await inputs.measure(row('sensing.divider.top'), csv('22k\nopen\n'));
	expect(inputs.measuredProblems.value).toEqual({
		key: 'sensing.divider.top',
		file: 'bench.csv',
		problems: ['line 2: “open” cannot be read; write a value in Ω, such as 4k7 or 22 kΩ'],
	});
	await inputs.measure(row('sensing.divider.top'), csv('22k\n1\n'));
	expect(inputs.measuredProblems.value?.problems[0]).toMatch(/1 value lies outside 10 Ω to 100 MΩ, the first is 1 Ω/);
	await inputs.measure(row('noise.sigma'), csv('1m'));
	expect(inputs.measuredProblems.value?.problems[0]).toMatch(/not a part that is built/);
	expect(scenario()).toBe(before);
});
