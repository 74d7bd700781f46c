import { expect, test } from 'vitest';
import { createPageModel } from '../../../src/page/model/page-model.ts';
import { createSign } from '../../../src/page/model/sign/sign.ts';
import { smallScenarioText } from '../../study/small-scenario.ts';
import { engineServices } from '../engine-services.ts';

const text = smallScenarioText({
	trial: { starts: 1, warmup: 6, settle: 6, measured: 12 },
	motor: { phaseResistance: { value: '0.35 Ω', lot: '10 %', mismatch: '1 %', basis: 'measured' } },
});
const settled = async (): Promise<void> => {
	for (let i = 0; i < 20; i++) await new Promise((resolve) => setTimeout(resolve, 5));
};
async function opened(seed = 'demo') {
	const model = createPageModel(engineServices(text));
	model.setUnits('40');
	model.setSeed(seed);
	const sign = createSign(model);
	await model.run();
	return { model, sign };
}

test('it opens with both verdicts in figures; counts, limits and failing drives are those of the study', async () => {
	const { model, sign } = await opened();
	const result = model.shown.value?.result;
	const answer = sign.answer.value;
	expect(answer?.sentence).toMatch(
		/^Half-bus (holds|fails|is undecided) \(\d+ of 40 drives pass\), virtual neutral (holds|fails|is undecided) \(\d+ of 40\); 95\u00a0% must pass, shown with 95\u00a0% confidence\.$/,
	);
	const { verdict, comparison } = result ?? {};
	expect(answer?.inFull).toEqual([verdict?.halfBus.sentence, verdict?.virtualNeutral.sentence, comparison?.sentence]);
	expect(answer?.requirement).toBe(result?.requirement.sentence);
	for (const [place, choice] of (['halfBus', 'virtualNeutral'] as const).entries()) {
		const { passed, failed } = result?.verdict[choice] ?? { passed: -1, failed: -1 };
		const rows = new Map(answer?.verdicts[place]?.rows.map(({ label, words }) => [label, words]));
		expect(rows.get('Drives that pass every point')).toBe(`${passed} of 40`);
		expect(rows.get('Failed the requirement')).toBe(String(failed));
		expect(answer?.deciding[place]).toMatch(failed === 0 ? /no drive fails/ : /decides/);
		const reasons = answer?.points.map(({ pass, reasons: why }) => [
			Number.parseInt(pass[choice], 10),
			why.reduce((sum, { counts }) => sum + Number(counts[choice]), 0),
		]);
		for (const [pass = 0, why = 0] of reasons ?? []) expect(pass + why).toBe(40);
	}
});

test('a scenario that states no requirement is told so: what stands as required is not its own', async () => {
	const { sign } = await opened();
	expect(sign.answer.value?.reservations).toContainEqual(expect.stringMatching(/^The scenario states no requirement/));
});

test('of all tolerances the one that was measured comes last, the others stand first as assumed', async () => {
	const { sign } = await opened();
	const tolerances = sign.answer.value?.tolerances ?? [];
	expect(tolerances.at(-1)).toMatchObject({ id: 'motor.phaseResistance', basis: 'measured', spread: 'uniform' });
	expect(tolerances.at(-1)?.lot.replace('\u00a0', ' ')).toBe('10 %');
	expect(tolerances.slice(0, -1).every(({ basis }) => basis === 'assumed')).toBe(true);
	expect(sign.answer.value?.assumed).toBe(
		`${tolerances.length - 1} of ${tolerances.length} tolerances are assumed: guesses until somebody measures. No verdict is better than they are.`,
	);
});

test('the line to get it again names file, drives and seed; edited inputs need their own file', async () => {
	const { model, sign } = await opened('two words');
	expect(sign.answer.value?.reproduce.line).toBe(
		'npm run --silent study -- scenarios/small.json "--seed=two words" --units 40',
	);
	const row = model.inputs.rows.value.find(({ key }) => key === 'noise.sigma');
	if (row) model.inputs.type(row, 'value', '5 mV');
	await settled();
	expect(sign.answer.value?.reproduce.line).toContain('-- scenario.json ');
	expect(sign.answer.value?.reproduce.note).toMatch(/“Keep and share” saves/);
});

test('of a run that goes on or was stopped nothing is signed: counts so far, no verdict and no limits', async () => {
	const { model, sign } = await opened();
	const whole = model.shown.value;
	if (!whole) throw new Error('no figures');
	const units = { asked: 4000, finished: 40, failed: 0 };
	const result = { ...whole.result, provenance: { ...whole.result.provenance, partial: true, units } };
	model.shown.value = { ...whole, result };
	const answer = sign.answer.value;
	expect(answer?.sentence).toMatch(/^No verdict, and nothing to sign: 40 of the 4\s?000 drives /);
	expect(answer?.verdicts.map(({ decision }) => decision)).toEqual(['not judged', 'not judged']);
	expect(answer?.verdicts[0]?.rows.map(({ label }) => label)).not.toContain('Shown at least');
	expect(answer?.inFull).toEqual([]);
});

test('another number of drives marks the figures as older until they are run again', async () => {
	const { model, sign } = await opened();
	expect(sign.isStale.value).toBe(false);
	model.setUnits('50');
	expect(sign.isStale.value).toBe(true);
	expect(sign.answer.value?.reservations[0]).toMatch(/not of the inputs as they are now/);
	expect(sign.canRun.value).toBe(true);
	await model.run();
	expect(sign.isStale.value).toBe(false);
	expect(sign.answer.value?.verdicts[0]?.rows[0]?.words).toMatch(/ of 50$/);
});

test('with a baseline pinned, figures that moved say what they were', async () => {
	const { model, sign } = await opened();
	model.against.pin();
	expect(sign.answer.value?.hasGhost).toBe(false);
	const before = sign.answer.value?.verdicts[1]?.rows[0]?.words;
	const row = model.inputs.rows.value.find(({ key }) => key === 'requirement.angleLimit');
	if (row) model.inputs.type(row, 'value', '2°');
	await settled();
	expect(sign.answer.value?.hasGhost).toBe(true);
	expect(sign.answer.value?.verdicts[1]?.rows[0]).toMatchObject({ was: `was ${before}` });
});
