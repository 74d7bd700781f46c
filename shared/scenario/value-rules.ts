import { referenceTemperature } from '../parameters/acting-parts.ts';
import { formatQuantity } from '../parameters/format-quantity.ts';
import type { Unit } from '../parameters/parameter.ts';
import { pointRecords } from './parameter-tree.ts';
import { pointReach, type Reach } from './reach.ts';
import type { Problem, Scenario } from './scenario.ts';

/** What parameters must satisfy together. */
interface Rule {
	/** The ids it looks at; a breach is reported at the first. */
	readonly ids: readonly [string, ...string[]];
	/** What was found and what would be right; undefined where the rule is kept. */
	readonly breach: (reach: Reach) => { readonly found: string; readonly message: string } | undefined;
}

/** Bounds the time that one run can take. */
const mostPeriods = 1e6;
/** Bounds how far back a sense node must be worked out; a filter of a fifth as many averages the chopping away. */
const mostFilterPeriods = 200;

const rules: readonly Rule[] = [
	{
		ids: ['detection.majorityVotes', 'detection.majorityWindow'],
		breach: ({ value }) =>
			value('detection.majorityVotes') > value('detection.majorityWindow')
				? {
						found: String(value('detection.majorityVotes')),
						message: `must not exceed the majority window of ${value('detection.majorityWindow')} readings`,
					}
				: undefined,
	},
	{
		ids: ['supply.rippleAmplitude', 'supply.voltage'],
		breach: ({ high, low }) =>
			high('supply.rippleAmplitude') < low('supply.voltage')
				? undefined
				: {
						found: shown(high('supply.rippleAmplitude'), 'V'),
						message: `ripple amplitude must stay below the bus voltage, here down to ${shown(low('supply.voltage'), 'V')}`,
					},
	},
	warmed('motor.copperCoefficient', 'operation.motorTemperature', 'phase resistance'),
	warmed('motor.magnetCoefficient', 'operation.motorTemperature', 'EMF constant'),
	warmed('sensing.resistorCoefficient', 'operation.boardTemperature', 'sensing resistors'),
	filter(
		'phase divider',
		['sensing.divider.capacitor', 'sensing.divider.top', 'sensing.divider.bottom'],
		(top, bottom) => 1 / top + 1 / bottom,
	),
	filter(
		'virtual neutral',
		['sensing.virtualNeutral.capacitor', 'sensing.virtualNeutral.star', 'sensing.virtualNeutral.ground'],
		(star, ground) => 3 / star + 1 / ground,
	),
	{
		ids: [
			'operation.speed',
			'motor.polePairs',
			'inverter.pwmFrequency',
			'trial.warmup',
			'trial.settle',
			'trial.measured',
		],
		breach: ({ low, value }) => {
			const sectors = value('trial.warmup') + value('trial.settle') + value('trial.measured');
			const sectorsPerSecond = (low('operation.speed') / 60) * value('motor.polePairs') * 6;
			const periods = (sectors / sectorsPerSecond) * value('inverter.pwmFrequency');
			if (periods <= mostPeriods) return undefined;
			return {
				found: shown(low('operation.speed'), 'rpm'),
				message: `one run would take ${Math.round(periods)} PWM periods, at most ${mostPeriods} are simulated; raise the speed or measure fewer sectors`,
			};
		},
	},
];

/** A temperature coefficient must leave a tenth of the value at the extremes of temperature. */
function warmed(coefficient: string, temperature: string, what: string): Rule {
	return {
		ids: [coefficient, temperature],
		breach: ({ low, high }) => {
			const factors = [low(coefficient), high(coefficient)].flatMap((alpha) =>
				[low(temperature), high(temperature)].map((t) => 1 + alpha * (t - referenceTemperature)),
			);
			const least = Math.min(...factors);
			if (least >= 0.1) return undefined;
			return {
				found: `${shown(low(coefficient), '1/K')} to ${shown(high(coefficient), '1/K')}`,
				message: `would bring ${what} to ${least.toFixed(2)} times nominal between ${shown(low(temperature), '°C')} and ${shown(high(temperature), '°C')}; at least 0.1 must be left`,
			};
		},
	};
}

/** A filter of the terminals must follow within a bounded number of PWM periods. */
function filter(
	what: string,
	[capacitor, fromTerminal, toGround]: readonly [string, string, string],
	conductance: (fromTerminal: number, toGround: number) => number,
): Rule {
	return {
		ids: [capacitor, fromTerminal, toGround, 'inverter.pwmFrequency'],
		breach: ({ value, high }) => {
			const time = high(capacitor) / conductance(high(fromTerminal), high(toGround));
			const most = mostFilterPeriods / value('inverter.pwmFrequency');
			if (time <= most) return undefined;
			return {
				found: shown(high(capacitor), 'F'),
				message: `gives the ${what} a time constant of ${shown(time, 's')}; it must not exceed ${mostFilterPeriods} PWM periods, ${shown(most, 's')}`,
			};
		},
	};
}

const shown = (number: number, unit: Unit): string => formatQuantity(Number(number.toPrecision(4)), unit);

/** Every rule that some values break; `ids` are what a rule looked at, the place of the problem first. */
export function breaches(reach: Reach): readonly (Omit<Problem, 'path'> & { readonly ids: readonly string[] })[] {
	return rules.flatMap(({ ids, breach }) => {
		const broken = breach(reach);
		return broken ? [{ ids, value: broken.found, message: broken.message }] : [];
	});
}

/** The rules that a scenario breaks at any of its points, but for those on values already reported at `reported` paths. */
export function brokenRules(scenario: Scenario, reported: ReadonlySet<string>): Problem[] {
	const problems = new Map<string, Problem>();
	const isReported = (path: string): boolean => [...reported].some((r) => r === path || r.startsWith(`${path}.`));
	scenario.points.forEach((point, i) => {
		for (const { ids, value, message } of breaches(pointReach(scenario, point))) {
			if (ids.some((id) => isReported(id) || isReported(pointPath(id, i)))) continue;
			const path = pointPath(ids[0] ?? '', i);
			problems.set(`${path} ${message}`, { path, value, message });
		}
	});
	return [...problems.values()];
}

const pointPath = (id: string, point: number): string => {
	const name = [...pointRecords].find(([, record]) => record.id === id)?.[0];
	return name === undefined ? id : `points[${point}].${name}`;
};
