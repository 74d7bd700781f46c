import { nominalFigures } from '../../shared/scenario/nominal-figures.ts';
import type { Scenario } from '../../shared/scenario/scenario.ts';
import type { StudyPlan } from '../../shared/study/plan.ts';
import type { Pool } from '../../src/host/pool.ts';
import { planOf } from './plan-of.ts';
import { poolRate, warmUp } from './pool-rate.ts';
import { type Spread, spread } from './spread.ts';

/** What a PWM period costs under one setting. */
export interface Cost {
	readonly setting: string;
	/** PWM periods in a sector, over the operating points on average. */
	readonly periodsPerSector: number;
	/** PWM periods per second. */
	readonly rate: Spread;
	/** Time of a period over that with the scenario as it is. */
	readonly overPlain: Spread;
}

/** Settings that differ from the scenario in one thing each; the first is the scenario as it is. */
function settings(scenario: Scenario): readonly { readonly setting: string; readonly plan: StudyPlan }[] {
	const { values } = scenario;
	const scaled = (id: string, factor: number) => ({ [id]: (values[id] as number) * factor });
	const votes = (window: number) => ({
		'detection.majorityWindow': window,
		'detection.majorityVotes': (window + 1) / 2,
	});
	const changes: readonly (readonly [string, Readonly<Record<string, number>>])[] = [
		['as it is', {}],
		['half the carrier', scaled('inverter.pwmFrequency', 0.5)],
		['twice the carrier', scaled('inverter.pwmFrequency', 2)],
		['four times the carrier', scaled('inverter.pwmFrequency', 4)],
		['four times the sectors', scaled('trial.measured', 4)],
		['edges ring by 10 V', { 'noise.ringAmplitude': 10 }],
		['one reading decides, W = 1', votes(1)],
		['W = 7', votes(7)],
		['W = 11', votes(11)],
	];
	return changes.map(([setting, change]) => ({
		setting,
		plan: planOf({ ...scenario, values: { ...values, ...change } }),
	}));
}

/** @param seconds that one measurement takes */
export async function costTable(
	pool: Pool,
	scenario: Scenario,
	repetitions: number,
	seconds: number,
): Promise<readonly Cost[]> {
	const rows = [];
	for (const { setting, plan } of settings(scenario)) {
		rows.push({ setting, plan, units: await warmUp(pool, plan, seconds, seconds), rates: [] as number[] });
	}
	for (let n = 0; n < repetitions; n += 1) {
		for (const { plan, units, rates } of rows) rates.push(await poolRate(pool, plan, units));
	}
	const [plain] = rows;
	return rows.map(({ setting, plan: { scenario: own }, rates }) => ({
		setting,
		periodsPerSector: meanPeriods(own),
		rate: spread(rates),
		overPlain: spread(rates.map((rate, n) => (plain?.rates[n] as number) / rate)),
	}));
}

function meanPeriods({ points, values }: Scenario): number {
	const each = points.map((point) => {
		const { sector, period } = nominalFigures({ ...values, ...point.values });
		return sector / period;
	});
	return each.reduce((sum, one) => sum + one, 0) / each.length;
}
