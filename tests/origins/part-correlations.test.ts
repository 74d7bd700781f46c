import { expect, test } from 'vitest';
import { correlationTable } from '../../shared/origins/correlation-table.ts';
import { partCorrelations } from '../../shared/origins/part-correlations.ts';
import { partSlots, partUniforms } from '../../shared/sampling/draw-parts.ts';
import { kindCountNames, kindSumNames } from '../../shared/study/columns.ts';
import { emptyStudy, mergeShard, unitStates } from '../../shared/study/merge.ts';
import { runShard } from '../../shared/study/run-shard.ts';
import { oneSpeed } from './one-speed.ts';

const seed = 'ranks';
const scenario = oneSpeed({ 'motor.placement': 1, 'sensing.comparator.offset': 0.005 });
const slotOf = (id: string, source: number): number =>
	partSlots.findIndex((one) => one.id === id && one.source === source);

/** A study whose half-bus error in kind k is `error(uniforms of the unit's parts, k)`. */
function studyOf(units: number, error: (uniforms: Float64Array, kind: number) => number) {
	const study = emptyStudy(units, 1);
	study.states.fill(unitStates.finished);
	for (let unit = 0; unit < units; unit += 1) {
		const uniforms = partUniforms(seed, unit);
		for (let kind = 0; kind < 6; kind += 1) {
			for (const choice of [0, 1]) {
				study.columns[kindCountNames[kind as 0]][2 * unit + choice] = 4;
				study.columns[kindSumNames[kind as 0]][2 * unit + choice] = 4 * error(uniforms, kind);
			}
		}
	}
	return study;
}

test('a part that alone sets a sector’s error has +1 or −1 there by its sign, and every part that varies is listed', () => {
	const b = slotOf('motor.placement', 1);
	const study = studyOf(200, (uniforms, kind) =>
		kind === 0 ? (uniforms[b] as number) ** 3 : -(uniforms[b] as number),
	);
	const { parts, drives, chance } = partCorrelations({ scenario, seed }, study, 0);
	expect(parts.map(({ name }) => name)).toEqual([
		...['a', 'b', 'c'].map((phase) => `winding placement ${phase}`),
		...['a', 'b', 'c'].map((phase) => `comparator offset ${phase}`),
	]);
	expect(drives).toEqual({ halfBus: 200, virtualNeutral: 200 });
	const { halfBus = [] } = parts[1]?.kinds ?? {};
	expect(halfBus[0]).toBeCloseTo(1, 12);
	for (const rho of halfBus.slice(1)) expect(rho).toBeCloseTo(-1, 12);
	// z of 0.025/36 is 3.2
	expect(chance.halfBus).toBeCloseTo(3.2 / Math.sqrt(199), 2);
	for (const place of [0, 2, 3, 4, 5]) {
		for (const rho of parts[place]?.kinds.halfBus ?? []) expect(Math.abs(rho)).toBeLessThan(chance.halfBus);
	}
});

test('without any cause one study in twenty or fewer passes the chance limit: at most 16 of 200', () => {
	let passed = 0;
	for (let replicate = 0; replicate < 200; replicate += 1) {
		const study = studyOf(
			60,
			(uniforms, kind) =>
				partUniforms(`noise ${replicate}`, Math.floor((uniforms[0] as number) * 2 ** 31))[kind] as number,
		);
		const { parts, chance } = partCorrelations({ scenario, seed }, study, 0);
		if (parts.some(({ kinds }) => kinds.halfBus.some((rho) => Math.abs(rho) > chance.halfBus))) passed += 1;
	}
	// binomial with 1/20: 10 expected, 16 is two standard deviations above
	expect(passed).toBeLessThanOrEqual(16);
});

test('drives that failed or measured nothing in some sector kind are in no correlation', () => {
	const study = studyOf(50, (uniforms) => uniforms[0] as number);
	study.states[3] = unitStates.failed;
	study.columns.sectors2[2 * 4] = 0;
	const { drives } = partCorrelations({ scenario, seed }, study, 0);
	expect(drives).toEqual({ halfBus: 48, virtualNeutral: 49 });
});

test('in a study of 60 drives winding placement c goes with its own crossings, kinds 0 and 3, and no others', () => {
	const plan = { scenario, seed, compensation: { halfBus: 78e-6, virtualNeutral: 78e-6 } };
	const study = emptyStudy(60, 1);
	mergeShard(study, runShard(plan, 0, 60));
	const { parts, chance } = partCorrelations(plan, study, 0);
	const placement = parts.find(({ name }) => name === 'winding placement c');
	const strong = placement?.kinds.halfBus.map((rho) => rho > chance.halfBus);
	expect(strong).toEqual([true, false, false, true, false, false]);
});

test('as a table every part that varies has a row for each choice, with the figures of partCorrelations', () => {
	const place = slotOf('motor.placement', 1);
	const study = studyOf(60, (uniforms, kind) => (kind === 0 ? 1 : -1) * (uniforms[place] as number));
	const plan = { scenario, seed, compensation: { halfBus: 0, virtualNeutral: 0 } };
	const [header, ...rows] = correlationTable({ plan, study });
	expect(header?.slice(0, 7)).toEqual(['point', 'choice', 'parameter', 'instance', 'drives', 'chance', 'c falling']);
	const { parts, chance } = partCorrelations(plan, study, 0);
	expect(rows).toHaveLength(2 * parts.length);
	const row = rows.find(
		([, choice, id, instance]) => choice === 'halfBus' && id === 'motor.placement' && instance === 'b',
	);
	expect(row?.slice(4, 6)).toEqual([60, chance.halfBus]);
	expect(row?.[6]).toBeCloseTo(1, 12);
	expect(row?.[7]).toBeCloseTo(-1, 12);
});
