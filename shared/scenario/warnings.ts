import { formatQuantity } from '../parameters/format-quantity.ts';
import type { Unit } from '../parameters/parameter.ts';
import { type NominalFigures, nominalFigures } from './nominal-figures.ts';
import { pointReach, type Reach } from './reach.ts';
import type { Scenario, Values } from './scenario.ts';

interface Case extends NominalFigures {
	readonly values: Values;
	readonly reach: Reach;
}

/** How bad it is at a point (compared between points only) and what to say; nothing where all is well. */
type Doubt = (at: Case) => { readonly size: number; readonly text: string } | undefined;

/**
 * What an engineer would question in a valid scenario before trusting its
 * figures: each doubt once, at the point where it weighs most. Judgement of the
 * trade on nominal values; the study itself decides.
 */
export function warnings(scenario: Scenario): string[] {
	const cases = scenario.points.map((point): Case => {
		const values = { ...scenario.values, ...point.values };
		return { ...nominalFigures(values), values, reach: pointReach(scenario, point) };
	});
	return doubts.flatMap((doubt) => {
		const found = cases.map((at, i) => ({ point: scenario.points[i]?.name, ...doubt(at) }));
		const worst = found.reduce((a, b) => ((b.size ?? 0) > (a.size ?? 0) ? b : a));
		return worst.text === undefined ? [] : [`At ${worst.point}: ${worst.text}`];
	});
}

const doubts: readonly Doubt[] = [
	({ duty, need, voltage }) =>
		duty > 1
			? {
					size: duty,
					text: `speed and torque need ${volts(need)}, the bus has ${volts(voltage)}: the torque is not reached.`,
				}
			: undefined,
	({ duty, need, reach }) => {
		const low = reach.low('supply.voltage');
		return duty <= 1 && need > low
			? {
					size: need / low,
					text: `with the bus down at ${volts(low)} the ${volts(need)} needed are not there: such starts miss the torque.`,
				}
			: undefined;
	},
	({ values, duty }) => {
		const window = values['detection.window'];
		const chopping = values['inverter.chopping'];
		if (window === 'on' || chopping === 'both') return undefined;
		const text =
			window === 'off'
				? `in the off-window of ${chopping} chopping the motor's neutral lies at a rail, not at half the bus: half-bus sensing is the wrong circuit here.`
				: `over the whole PWM period of ${chopping} chopping the terminals' mean follows the duty, half the bus does not: half-bus sensing is the wrong circuit here, whatever its parts.`;
		return { size: 2 - Math.min(duty, 1), text };
	},
	({ values, duty, period, dividerTime }) => {
		const window = values['detection.window'];
		if (window === 'whole') return undefined;
		const share = window === 'on' ? Math.min(duty, 1) : 1 - Math.min(duty, 1);
		const wait = (share * period * Number(values['detection.position'])) / Number(values['detection.samples']);
		return wait > 0 && wait < 3 * dividerTime
			? {
					size: dividerTime / wait,
					text: `the first reading comes ${seconds(wait)} after the edge, the phase divider needs about ${seconds(3 * dividerTime)} to follow it.`,
				}
			: undefined;
	},
	({ values, degreesPerSecond, dividerTime, period }) => {
		const readings = values['detection.window'] === 'whole' ? Number(values['detection.samples']) : 1;
		const votes = Number(values['detection.majorityVotes']);
		const delay = dividerTime + Number(values['sensing.comparator.latency']) + ((votes - 0.5) * period) / readings;
		const lag = delay * degreesPerSecond;
		const room = 30 - Number(values['detection.advance']);
		return lag > room
			? {
					size: lag,
					text: `filter, votes and latency lag by about ${degrees(lag)}, more than the ${degrees(room)} between crossing and commutation: no compensation can make that up.`,
				}
			: undefined;
	},
	({ sector, period }) =>
		sector < 5 * period
			? {
					size: period / sector,
					text: `a sector has ${(sector / period).toFixed(1)} PWM periods: one reading is worth ${degrees((60 * period) / sector)}.`,
				}
			: undefined,
	({ values }) => {
		const blanking = Number(values['detection.blanking']);
		const crossing = 30 + Number(values['detection.advance']);
		return blanking > crossing - 5
			? {
					size: blanking,
					text: `blanking of ${degrees(blanking)} ends less than 5° before the crossing is due, ${degrees(crossing)} after the commutation.`,
				}
			: undefined;
	},
	({ values, freewheel, degreesPerSecond }) => {
		const angle = freewheel * degreesPerSecond;
		const blanking = Number(values['detection.blanking']);
		return angle > blanking
			? {
					size: angle,
					text: `the outgoing phase freewheels for about ${degrees(angle)} and blanking ends after ${degrees(blanking)}: its clamped terminal is read.`,
				}
			: undefined;
	},
	({ values, reach, dividerGain, emfSlope }) => {
		// The virtual neutral sees two thirds of the EMF, since a third of it moves the star.
		const slope = (2 / 3) * dividerGain * emfSlope;
		const offset = Math.max(-reach.low('sensing.comparator.offset'), reach.high('sensing.comparator.offset'));
		const angle = (offset + 3 * Number(values['noise.sigma'])) / slope;
		return angle > Number(values['trial.falseMargin'])
			? {
					size: angle,
					text: `offset and three sigma of noise are worth ${degrees(angle)} of the EMF's slope, ${volts(slope)} per degree at the comparator.`,
				}
			: undefined;
	},
	({ voltage, dividerGain, halfBusGain, virtualNeutralGain, emfSlope }) => {
		const slope = dividerGain * emfSlope;
		const bus = ((halfBusGain - dividerGain / 2) * voltage) / slope;
		const star = ((virtualNeutralGain - dividerGain) * voltage) / 2 / slope;
		const worst = Math.max(Math.abs(bus), Math.abs(star));
		return worst > 3
			? {
					size: worst,
					text: `nominal gains differ: half-bus is off by ${degrees(bus)}, the virtual neutral by ${degrees(star)} before any tolerance.`,
				}
			: undefined;
	},
	({ values, reach, dividerGain, emfSlope }) => {
		const bits = values['sensing.converter.bits'];
		if (typeof bits !== 'number') return undefined;
		const fullScale = Number(values['sensing.converter.fullScale']);
		const threshold = (dividerGain * reach.high('supply.voltage')) / 2;
		if (threshold >= fullScale) {
			return {
				size: 1e3,
				text: `the threshold rises to ${volts(threshold)}, beyond the converter's full scale of ${volts(fullScale)}: no crossing can be seen.`,
			};
		}
		let codes = 1;
		for (let b = 0; b < bits; b++) codes *= 2;
		const step = fullScale / codes / ((2 / 3) * dividerGain * emfSlope);
		return step > 3 ? { size: step, text: `one converter code is worth ${degrees(step)} at the crossing.` } : undefined;
	},
	({ values, halfBusTime, dividerTime, emfSlope }) => {
		// A filtered divider leaves A·x/√(1+x²) of the ripple behind, x = 2πfτ; both sides' filters count against each other.
		const x = 2 * Math.PI * Number(values['supply.rippleFrequency']) * Math.abs(halfBusTime - dividerTime);
		const angle = ((Number(values['supply.rippleAmplitude']) / 2) * (x / Math.sqrt(1 + x * x))) / emfSlope;
		return angle > 3
			? {
					size: angle,
					text: `the bus divider trails the ripple by up to ${degrees(angle)}: half-bus crossings wander with it.`,
				}
			: undefined;
	},
];

const quantity = (unit: Unit) => (value: number) => formatQuantity(Number(value.toPrecision(3)), unit);
const volts = quantity('V');
const seconds = quantity('s');
const degrees = quantity('°');
