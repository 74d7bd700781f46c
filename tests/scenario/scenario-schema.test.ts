import { readdirSync, readFileSync } from 'node:fs';
import { Ajv2020 } from 'ajv/dist/2020.js';
import { expect, test } from 'vitest';
import { parameters } from '../../shared/parameters/parameters.ts';
import { scenarioSchema } from '../../shared/scenario/scenario-schema.ts';

const folder = new URL('../../scenarios/', import.meta.url);
const validate = new Ajv2020({ strict: true, allowUnionTypes: true }).compile(scenarioSchema());

test('the committed schema is the generated one (npm run schema writes it anew)', async () => {
	const text = `${JSON.stringify(scenarioSchema(), null, '\t')}\n`;
	await expect(text).toMatchFileSnapshot(new URL('scenario.schema.json', folder).pathname);
});

test('it describes every parameter, with its sentence', () => {
	const text = JSON.stringify(scenarioSchema());
	for (const { sentence } of parameters) expect(text).toContain(JSON.stringify(sentence).slice(1, -1));
});

test.each(readdirSync(folder).filter((name) => !name.includes('schema')))('%s names the schema and fits it', (name) => {
	const file = JSON.parse(readFileSync(new URL(name, folder), 'utf8'));
	expect(file.$schema).toBe('./scenario.schema.json');
	validate(file);
	expect(validate.errors).toBeNull();
});

test.each([
	['an unknown name', { motor: { colour: 'red' } }],
	['a value out of range', { motor: { polePairs: 0 } }],
	['no option', { detection: { window: 'never' } }],
	['a tolerance on a setting', { inverter: { diodeDrop: { value: 0.7, lot: 0.1 } } }],
	['no points', { points: [] }],
])('it refuses %s', (_, part) => {
	expect(validate({ name: 'x', points: [{ name: 'p', speed: 900, torque: 0.1 }], ...part })).toBe(false);
});
