import { formatQuantity } from '../parameters/format-quantity.ts';
import type { NumberRecord } from '../parameters/parameter.ts';
import { parameter } from '../parameters/parameters.ts';
import { limits } from '../scenario/read-entry.ts';
import type { OperatingPoint, Problem, Scenario } from '../scenario/scenario.ts';
import { brokenRules } from '../scenario/value-rules.ts';
import { type Variant, variantScenario } from '../variants/variant.ts';
import { quantity } from '../words/quantity.ts';
import type { Axis } from './axis.ts';

/** How the load torque goes with a speed that is varied by itself, through the operating point. */
export const loadLines = ['square', 'constant'] as const;
export type LoadLine = (typeof loadLines)[number];

/** Values of the varied parameters, by id. */
export type Setting = Readonly<Record<string, number>>;

/** All settings of the axes, the first axis running fastest. */
export function settingsOf(axes: readonly Axis[]): Setting[] {
	return axes.reduceRight<Setting[]>(
		(settings, { record, values }) =>
			settings.flatMap((setting) => values.map((value) => ({ [record.id]: value, ...setting }))),
		[{}],
	);
}

export interface Ranging {
	readonly scenario: Scenario;
	/** Index of the only point that is run; null for all of them. */
	readonly point: number | null;
	readonly load: LoadLine;
}

/**
 * The study's drives with some parameters set: conditions at the point (or at
 * all points), the others in common. Ranges and tolerances stay, relative ones
 * about the value set. A speed without a torque takes its torque from the load line.
 */
export function variantAt({ scenario, point, load }: Ranging, setting: Setting): Variant {
	const conditions = Object.entries(setting).filter(([id]) => isCondition(id));
	const common = Object.entries(setting).filter(([id]) => !isCondition(id));
	const places = point === null ? scenario.points.map((_, place) => place) : [point];
	return {
		...(common.length > 0 && { values: Object.fromEntries(common) }),
		points: places.map((place): OperatingPoint => {
			const given = scenario.points[place] as OperatingPoint;
			const values = { ...given.values, ...Object.fromEntries(conditions) };
			return { ...given, values: { ...values, 'operation.torque': torqueOf(given, setting, load) } };
		}),
		pointKeys: places,
	};
}

/** The scenario whose firmware is tuned for this setting; null where the setting is of conditions, which the firmware does not know. */
export function retunedScenario({ scenario }: Ranging, setting: Setting): Scenario | null {
	const common = Object.entries(setting).filter(([id]) => !isCondition(id));
	return common.length === 0 ? null : { ...scenario, values: { ...scenario.values, ...Object.fromEntries(common) } };
}

/** What keeps a setting from being simulated; paths name the setting. */
export function settingProblems(ranging: Ranging, setting: Setting): Problem[] {
	const path = settingWords(setting);
	const scenario = variantScenario(ranging.scenario, variantAt(ranging, setting));
	const retuned = retunedScenario(ranging, setting);
	const broken = [...brokenRules(scenario, new Set()), ...(retuned ? brokenRules(retuned, new Set()) : [])];
	const problems = broken.map(({ path: place, value, message }) => ({
		path,
		value: '',
		message: `${place}, ${value}: ${message}`,
	}));
	const torque = parameter('operation.torque') as NumberRecord;
	for (const { values } of scenario.points) {
		const value = values['operation.torque'] as number;
		if (value >= torque.min && value <= torque.max) continue;
		const found = formatQuantity(value, torque.unit);
		problems.push({
			path,
			value: '',
			message: `the load line leads to ${found}; load torque must be ${limits(torque)}`,
		});
	}
	// the same rule may be broken at the point and where the firmware is tuned
	return [...new Map(problems.map((problem) => [problem.message, problem])).values()];
}

/** "operation.speed = 600 rpm, …". */
function settingWords(setting: Setting): string {
	return Object.entries(setting)
		.map(([id, value]) => `${id} = ${valueWords(id, value)}`)
		.join(', ');
}

/** The same as a sentence has it: "bus voltage 300 V, …". */
export function placeWords(setting: Setting): string {
	return Object.entries(setting)
		.map(([id, value]) => `${parameter(id).name} ${valueWords(id, value)}`)
		.join(', ');
}

/** A parameter's value to four digits, with its unit. */
export function valueWords(id: string, value: number): string {
	const record = parameter(id) as NumberRecord;
	return quantity(value, record.unit);
}

const isCondition = (id: string): boolean => parameter(id).role === 'condition';

function torqueOf({ values }: OperatingPoint, setting: Setting, load: LoadLine): number {
	const stated = setting['operation.torque'];
	if (stated !== undefined) return stated;
	const torque = values['operation.torque'] as number;
	const speed = setting['operation.speed'];
	if (speed === undefined || load === 'constant') return torque;
	const ratio = speed / (values['operation.speed'] as number);
	return torque * (ratio * ratio);
}
