import pow from '@stdlib/math-base-special-pow';
import { longestWindow } from '../drive/sensing/acceptance-chain.ts';
import { formatQuantity } from '../parameters/format-quantity.ts';
import type { Unit } from '../parameters/parameter.ts';
import { parameter } from '../parameters/parameters.ts';
import { capital } from '../words/capital.ts';
import { fewMeasured } from '../words/measured.ts';
import { type NominalFigures, nominalFigures } from './nominal-figures.ts';
import { pointReach, type Reach } from './reach.ts';
import type { Scenario } from './scenario.ts';

/** A scenario at one of its points. */
interface Case extends NominalFigures, Reach {
	readonly window: string;
	readonly chopping: string;
	/** Converter bits; 0 for a comparator. */
	readonly bits: number;
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
		return {
			...nominalFigures(values),
			...pointReach(scenario, point),
			window: String(values['detection.window']),
			chopping: String(values['inverter.chopping']),
			bits: Number(values['sensing.converter.bits']) || 0,
		};
	});
	return [...judging(scenario), ...measuring(scenario), ...doubtsOf(cases, scenario)];
}

/** Whether the hourly limit is judged by chances; with a longer majority window none are computed. */
export const judgesByChances = ({ values }: Pick<Scenario, 'values'>): boolean =>
	(values['detection.majorityWindow'] as number) <= longestWindow;

/** A requirement that drives cannot be held to. */
function judging(scenario: Scenario): string[] {
	if (judgesByChances(scenario)) return [];
	const { values } = scenario;
	return [
		`With a majority window of ${values['detection.majorityWindow']} readings no chances are computed (${longestWindow} at most): drives are held to the hourly limit, requirement.crossingsPerHour, by their counted crossings alone. A drive that shows none in its few sectors passes, whatever its rate: whether the limit holds is not known.`,
	];
}

/** Parts drawn from so few measured values that their extremes are not known. */
const measuring = ({ tolerances }: Scenario): string[] =>
	Object.entries(tolerances).flatMap(([id, { distribution, measured }]) => {
		const words = distribution === 'measured' ? fewMeasured(measured?.length ?? 0) : '';
		return words ? [`${capital(parameter(id).name)}: ${words}`] : [];
	});

function doubtsOf(cases: readonly Case[], scenario: Scenario): string[] {
	return Object.values(doubts).flatMap((doubt) => {
		const found = cases.map((at, i) => ({ point: scenario.points[i]?.name, ...doubt(at) }));
		const worst = found.reduce((a, b) => ((b.size ?? 0) > (a.size ?? 0) ? b : a));
		return worst.text === undefined ? [] : [`At ${worst.point}: ${worst.text}`];
	});
}

const quantity = (unit: Unit) => (value: number) => formatQuantity(Number(value.toPrecision(3)), unit);
const volts = quantity('V');
const seconds = quantity('s');
const degrees = quantity('°');

const above = (limit: number, size: number, text: string): ReturnType<Doubt> =>
	size > limit ? { size, text } : undefined;

/** Shift of a crossing, degrees, that an engineer would look into before any tolerance is drawn. */
const notable = 3;

/** From here on next to nothing is left of an off-window anyway. */
const nearFullDuty = 0.95;

/** The virtual neutral sees two thirds of the EMF, since a third of it moves the star: V per degree at the comparator. */
const senseSlope = ({ dividerGain, emfSlope }: NominalFigures): number => (2 / 3) * dividerGain * emfSlope;

const doubts: Readonly<Record<string, Doubt>> = {
	torqueOutOfReach: ({ duty, need, voltage }) =>
		above(1, duty, `speed and torque need ${volts(need)}, the bus has ${volts(voltage)}: the torque is not reached.`),

	torqueOutOfReachOnLowBus: ({ duty, need, low }) => {
		const bus = low('supply.voltage');
		const text = `with the bus down at ${volts(bus)} the ${volts(need)} needed are not there: such starts miss the torque.`;
		return duty > 1 ? undefined : above(1, need / bus, text);
	},

	lowSwitchNeverCloses: ({ chopping, duty, period, value }) => {
		const offWindow = (1 - Math.min(duty, 1)) * period;
		const dead = value('inverter.deadTime');
		const text = `dead times of ${seconds(dead)} fill the off-window of ${seconds(offWindow)}: the low switch never closes in it, and chopping is high-side in effect.`;
		return chopping === 'complementary' && duty < nearFullDuty ? above(1, (2 * dead) / offWindow, text) : undefined;
	},

	wrongCircuit: ({ window, chopping, duty, dividerTime, period }) => {
		// With both switches open the motor's neutral stays at half the bus.
		if (window === 'on' || chopping === 'both') return undefined;
		const filtered = window === 'whole' && dividerTime > period;
		const why = filtered
			? `over the whole PWM period of ${chopping} chopping the filtered terminals follow the duty, half the bus does not`
			: `in the off-window of ${chopping} chopping the motor's neutral lies at a rail, not at half the bus`;
		return above(0, 2 - Math.min(duty, 1), `${why}: half-bus sensing is the wrong circuit here, whatever its parts.`);
	},

	edgeNotFollowed: ({ window, duty, period, dividerTime, value }) => {
		if (window === 'whole') return undefined;
		const share = window === 'on' ? Math.min(duty, 1) : 1 - Math.min(duty, 1);
		const wait = (share * period * value('detection.position')) / value('detection.samples');
		const text = `the first reading comes ${seconds(wait)} after the edge, the phase divider needs about ${seconds(3 * dividerTime)} to follow it.`;
		return above(1 / 3, dividerTime / wait, text);
	},

	lagBeyondCommutation: ({ window, degreesPerSecond, dividerTime, period, value }) => {
		const readings = window === 'whole' ? value('detection.samples') : 1; // spread over a period; else close together
		const votes = ((value('detection.majorityVotes') - 0.5) * period) / readings;
		const lag = (dividerTime + value('sensing.comparator.latency') + votes) * degreesPerSecond;
		const room = 30 - value('detection.advance');
		const text = `filter, votes and latency lag by about ${degrees(lag)}, more than the ${degrees(room)} between crossing and commutation: no compensation can make that up.`;
		return above(room, lag, text);
	},

	fewPeriods: ({ sector, period }) => {
		const periods = sector / period;
		const text = `a sector has ${periods.toFixed(1)} PWM periods: one of them is worth ${degrees(60 / periods)}.`;
		return above(1 / 5, 1 / periods, text);
	},

	blankingUpToCrossing: ({ value }) => {
		const blanking = value('detection.blanking');
		const crossing = 30 + value('detection.advance');
		const text = `blanking of ${degrees(blanking)} ends less than 5° before the crossing is due, ${degrees(crossing)} after the commutation.`;
		return above(crossing - 5, blanking, text);
	},

	freewheelBeyondBlanking: ({ freewheel, degreesPerSecond, value }) => {
		const angle = freewheel * degreesPerSecond;
		const blanking = value('detection.blanking');
		const text = `the outgoing phase freewheels for about ${degrees(angle)} and blanking ends after ${degrees(blanking)}: its clamped terminal is read.`;
		return above(blanking, angle, text);
	},

	noiseBeyondMargin: (at) => {
		const slope = senseSlope(at);
		const offset = Math.max(-at.low('sensing.comparator.offset'), at.high('sensing.comparator.offset'));
		const angle = (offset + 3 * at.value('noise.sigma')) / slope;
		const text = `offset and three sigma of noise are worth ${degrees(angle)} of the EMF's slope, ${volts(slope)} per degree at the comparator.`;
		return above(at.value('trial.falseMargin'), angle, text);
	},

	unequalGains: ({ voltage, dividerGain, halfBusGain, virtualNeutralGain, emfSlope }) => {
		const slope = dividerGain * emfSlope;
		const bus = ((halfBusGain - dividerGain / 2) * voltage) / slope;
		const star = ((virtualNeutralGain - dividerGain) * voltage) / 2 / slope;
		const gain = (value: number): string => String(Number(value.toPrecision(3)));
		const text = `nominal gains differ: half-bus is off by ${degrees(bus)}, the virtual neutral by ${degrees(star)} before any tolerance. The bus divider passes ${gain(halfBusGain)} where half of the phase divider's is ${gain(dividerGain / 2)}, the star ${gain(virtualNeutralGain)} where the phase divider passes ${gain(dividerGain)}.`;
		return above(notable, Math.max(Math.abs(bus), Math.abs(star)), text);
	},

	beyondFullScale: ({ bits, dividerGain, high, value }) => {
		const threshold = (dividerGain * high('supply.voltage')) / 2;
		const fullScale = value('sensing.converter.fullScale');
		const text = `the threshold rises to ${volts(threshold)}, beyond the converter's full scale of ${volts(fullScale)}: no crossing can be seen.`;
		return bits > 0 ? above(fullScale, threshold, text) : undefined;
	},

	coarseConverter: (at) => {
		const step = at.value('sensing.converter.fullScale') / pow(2, at.bits) / senseSlope(at);
		return at.bits > 0
			? above(notable, step, `one converter code is worth ${degrees(step)} at the crossing.`)
			: undefined;
	},

	rippleLag: ({ halfBusTime, dividerTime, emfSlope, value }) => {
		// A filter of time constant τ leaves A·x/√(1 + x²) of the ripple behind, x = 2πfτ; the two sides' lags count against each other.
		const x = 2 * Math.PI * value('supply.rippleFrequency') * Math.abs(halfBusTime - dividerTime);
		const angle = ((value('supply.rippleAmplitude') / 2) * (x / Math.sqrt(1 + x * x))) / emfSlope;
		const text = `the bus divider trails the ripple by up to ${degrees(angle)}: half-bus crossings wander with it.`;
		return above(notable, angle, text);
	},
};
