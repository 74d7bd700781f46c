import type { ChoiceRecord, Group, NumberRecord, ParameterRecord, Role, Tolerance, Unit } from './parameter.ts';

/**
 * Every parameter, declared once. Defaults are the nominal values of the first
 * (invented) demo. To add a parameter: add a record at the END of its list of
 * parts (draws are dealt out in this order) and read it in drive/build-drive.ts.
 */

const assumed = (lot: number, mismatch: number, scale: Tolerance['scale'] = 'relative'): Tolerance => ({
	scale,
	lot,
	mismatch,
	distribution: 'uniform', // the choice when only limits are known: JCGM 101:2008, 6.4.2
	basis: 'assumed',
});

interface NumberOptions extends Partial<Omit<NumberRecord, 'id' | 'group' | 'unit' | 'default' | 'min' | 'max'>> {
	readonly symbol: string;
	readonly name: string;
	readonly sentence: string;
}

const number = (
	id: string,
	group: Group,
	unit: Unit,
	value: number | string,
	[min, max]: readonly [number, number],
	options: NumberOptions,
): NumberRecord => {
	const role: Role = options.role ?? (options.tolerance ? 'part' : 'setting');
	return { kind: 'number', instances: 1, ...options, id, group, unit, default: value, min, max, role };
};

const choice = (
	id: string,
	group: Group,
	options: readonly string[],
	value: string,
	words: Pick<ChoiceRecord, 'name' | 'symbol' | 'sentence'>,
): ChoiceRecord => ({ kind: 'choice', role: 'setting', id, group, options, default: value, ...words });

export const parameters: readonly ParameterRecord[] = [
	number('motor.polePairs', 'motor', '1', 4, [1, 50], {
		kind: 'integer',
		name: 'pole pairs',
		symbol: 'p',
		sentence: 'Electrical revolutions in one mechanical revolution.',
	}),
	choice('motor.shape', 'motor', ['trapezoidal', 'sinusoidal'], 'trapezoidal', {
		name: 'back-EMF shape',
		symbol: 's(θ)',
		sentence: 'Waveform of the phase back-EMF against rotor angle.',
	}),
	number('motor.phaseResistance', 'motor', 'Ω', 0.35, [1e-3, 1e3], {
		instances: 3,
		tolerance: assumed(0.1, 0.01),
		name: 'phase resistance',
		symbol: 'R',
		sentence: 'Winding resistance of one phase, at 25 °C.',
	}),
	number('motor.phaseInductance', 'motor', 'H', 350e-6, [1e-6, 1], {
		instances: 3,
		tolerance: assumed(0.1, 0.01),
		name: 'phase inductance',
		symbol: 'L',
		sentence: 'Self minus mutual inductance of one phase; it sets how long a phase freewheels after commutation.',
	}),
	number('motor.emfConstant', 'motor', 'V·s/rad', 0.03, [1e-5, 10], {
		instances: 3,
		tolerance: assumed(0.05, 0.01),
		name: 'EMF constant',
		symbol: 'K',
		sentence: 'Peak phase back-EMF per mechanical rad/s, at 25 °C.',
	}),
	number('motor.flatTop', 'motor', '°', 120, [60, 170], {
		tolerance: assumed(3, 0, 'absolute'),
		name: 'flat top',
		symbol: 'F',
		sentence: 'Width of the flat part of a trapezoidal back-EMF.',
	}),
	number('motor.placement', 'motor', '°', 0, [-10, 10], {
		instances: 3,
		tolerance: assumed(0, 1, 'absolute'),
		name: 'winding placement',
		symbol: 'δ',
		sentence: "Electrical angle by which a phase's back-EMF lags its ideal place.",
	}),
	number('inverter.pwmFrequency', 'inverter', 'Hz', 20e3, [1e3, 500e3], {
		name: 'PWM frequency',
		symbol: '1/T',
		sentence: 'Carrier frequency of the chopping; the carrier is never reset.',
	}),
	choice('inverter.chopping', 'inverter', ['high-side', 'low-side', 'complementary', 'both'], 'high-side', {
		name: 'chopping',
		symbol: '–',
		sentence:
			'Which switches of the two driven phases open in the off-window, and whether the other one of the pair closes.',
	}),
	number('inverter.deadTime', 'inverter', 's', 0, [0, 1e-4], {
		name: 'dead time',
		symbol: 't_d',
		sentence: 'Pause between the two switches of a phase under complementary chopping.',
	}),
	number('inverter.switchResistance', 'inverter', 'Ω', 0.01, [0, 10], {
		name: 'switch resistance',
		symbol: 'R_on',
		sentence: 'On-resistance of one closed switch.',
	}),
	number('inverter.diodeDrop', 'inverter', 'V', 0.7, [0.01, 3], {
		name: 'diode drop',
		symbol: 'V_F',
		sentence: 'Constant forward voltage of a freewheeling diode.',
	}),
	number('inverter.shuntResistance', 'inverter', 'Ω', 0, [0, 10], {
		name: 'shunt resistance',
		symbol: 'R_sh',
		sentence: 'Current shunt between the low rail and the bus negative.',
	}),
	number('operation.speed', 'operation', 'rpm', 3000, [1, 200e3], {
		role: 'condition',
		perPoint: true,
		stated: true,
		range: { scale: 'relative', halfWidth: 0.02 },
		name: 'speed',
		symbol: 'n',
		sentence: 'Imposed mechanical speed; constant during a run.',
	}),
	number('operation.torque', 'operation', 'N·m', 0.1, [0, 1e3], {
		role: 'condition',
		perPoint: true,
		stated: true,
		name: 'load torque',
		symbol: 'T_L',
		sentence: 'Load torque that the duty is trimmed to reach.',
	}),
	number('operation.share', 'operation', '1', 1, [0, 1e6], {
		role: 'condition',
		perPoint: true,
		name: 'share of hours',
		symbol: 'w',
		sentence: "This point's share of the operating hours (weights; they need not add up to 1).",
	}),
	number('operation.boardTemperature', 'operation', '°C', 25, [-60, 200], {
		role: 'condition',
		perPoint: true,
		name: 'board temperature',
		symbol: 'ϑ_b',
		sentence: 'Temperature of the sensing resistors.',
	}),
	number('operation.motorTemperature', 'operation', '°C', 25, [-60, 250], {
		role: 'condition',
		perPoint: true,
		name: 'motor temperature',
		symbol: 'ϑ_m',
		sentence: 'Temperature of windings and magnets.',
	}),
	number('motor.copperCoefficient', 'motor', '1/K', 3930e-6, [0, 0.02], {
		name: 'copper temperature coefficient',
		symbol: 'α_Cu',
		sentence: 'Relative change of phase resistance per kelvin from 25 °C.',
	}),
	number('motor.magnetCoefficient', 'motor', '1/K', -1100e-6, [-0.02, 0.02], {
		name: 'magnet temperature coefficient',
		symbol: 'α_M',
		sentence: 'Relative change of the EMF constant per kelvin from 25 °C.',
	}),
	number('supply.voltage', 'supply', 'V', 24, [1, 1500], {
		role: 'condition',
		perPoint: true,
		range: { scale: 'relative', halfWidth: 0.05 },
		name: 'bus voltage',
		symbol: 'V',
		sentence: 'Mean voltage of the high rail against the bus negative.',
	}),
	number('supply.rippleAmplitude', 'supply', 'V', 0.6, [0, 200], {
		role: 'condition',
		perPoint: true,
		range: { scale: 'relative', halfWidth: 0.2 },
		name: 'ripple amplitude',
		symbol: 'A_r',
		sentence: 'Peak of the sinusoidal ripple on the bus.',
	}),
	number('supply.rippleFrequency', 'supply', 'Hz', 100, [1, 20e3], {
		role: 'condition',
		perPoint: true,
		name: 'ripple frequency',
		symbol: 'f_r',
		sentence: 'Frequency of the bus ripple; its phase at the start of a run is random.',
	}),
	number('sensing.divider.top', 'divider', 'Ω', 22e3, [10, 100e6], {
		instances: 3,
		tolerance: assumed(0, 0.01),
		name: 'phase divider, top',
		symbol: 'R_top',
		sentence: 'Resistor from a motor terminal to its sense node.',
	}),
	number('sensing.divider.bottom', 'divider', 'Ω', 4.7e3, [10, 100e6], {
		instances: 3,
		tolerance: assumed(0, 0.01),
		name: 'phase divider, bottom',
		symbol: 'R_bot',
		sentence: 'Resistor from a sense node to ground.',
	}),
	number('sensing.divider.capacitor', 'divider', 'F', 470e-12, [1e-13, 1e-4], {
		instances: 3,
		tolerance: assumed(0, 0.1),
		name: 'phase divider, capacitor',
		symbol: 'C',
		sentence: 'Filter capacitor from a sense node to ground.',
	}),
	number('sensing.halfBus.top', 'halfBus', 'Ω', 48.7e3, [10, 100e6], {
		tolerance: assumed(0, 0.01),
		name: 'bus divider, top',
		symbol: 'R_h,top',
		sentence: 'Resistor from the high rail to the half-bus threshold.',
	}),
	number('sensing.halfBus.bottom', 'halfBus', 'Ω', 4.7e3, [10, 100e6], {
		tolerance: assumed(0, 0.01),
		name: 'bus divider, bottom',
		symbol: 'R_h,bot',
		sentence: 'Resistor from the half-bus threshold to ground.',
	}),
	number('sensing.halfBus.capacitor', 'halfBus', 'F', 100e-9, [1e-13, 1e-2], {
		tolerance: assumed(0, 0.1),
		name: 'bus divider, capacitor',
		symbol: 'C_h',
		sentence: 'Filter capacitor of the half-bus threshold; bus ripple lags behind it.',
	}),
	number('sensing.virtualNeutral.star', 'virtualNeutral', 'Ω', 66.5e3, [10, 100e6], {
		instances: 3,
		tolerance: assumed(0, 0.01),
		name: 'star resistor',
		symbol: 'R_star',
		sentence: 'Resistor from a motor terminal to the virtual neutral.',
	}),
	number('sensing.virtualNeutral.ground', 'virtualNeutral', 'Ω', 4.75e3, [10, 100e6], {
		tolerance: assumed(0, 0.01),
		name: 'star ground resistor',
		symbol: 'R_g',
		sentence: 'Resistor from the virtual neutral to ground.',
	}),
	number('sensing.virtualNeutral.capacitor', 'virtualNeutral', 'F', 470e-12, [1e-13, 1e-4], {
		tolerance: assumed(0, 0.1),
		name: 'star capacitor',
		symbol: 'C_n',
		sentence: 'Filter capacitor of the virtual neutral.',
	}),
	number('sensing.comparator.offset', 'comparator', 'V', 0, [-1, 1], {
		instances: 3,
		tolerance: assumed(0, 5e-3, 'absolute'),
		name: 'comparator offset',
		symbol: 'V_os',
		sentence: 'Input offset voltage, added to the sense side.',
	}),
	number('sensing.comparator.hysteresis', 'comparator', 'V', 0, [0, 5], {
		name: 'comparator hysteresis',
		symbol: 'h',
		sentence: 'Full width of the hysteresis, half to each side.',
	}),
	number('sensing.comparator.latency', 'comparator', 's', 1e-6, [0, 1e-3], {
		name: 'latency',
		symbol: 't_l',
		sentence: 'Time from an accepted sample until it is acted on.',
	}),
	number('sensing.resistorCoefficient', 'comparator', '1/K', 0, [-0.01, 0.01], {
		instances: 12,
		tolerance: assumed(0, 100e-6, 'absolute'),
		name: 'resistor temperature coefficient',
		symbol: 'α_R',
		sentence: 'Relative change of each sensing resistor per kelvin from 25 °C, drawn per part.',
	}),
	number('sensing.converter.bits', 'comparator', '1', 'none', [4, 16], {
		kind: 'integer',
		word: 'none',
		name: 'converter bits',
		symbol: 'b',
		sentence:
			'Resolution where sense side and threshold are digitised before they are compared; none for a comparator.',
	}),
	number('sensing.converter.fullScale', 'comparator', 'V', 5, [0.1, 100], {
		name: 'converter full scale',
		symbol: 'V_fs',
		sentence: 'Input voltage of the highest code plus one.',
	}),
	choice('detection.window', 'detection', ['on', 'off', 'whole'], 'on', {
		name: 'sampling window',
		symbol: '–',
		sentence: 'Part of each PWM period in which the comparator is read.',
	}),
	number('detection.samples', 'detection', '1', 1, [1, 64], {
		kind: 'integer',
		name: 'samples per window',
		symbol: 'n_s',
		sentence: 'Readings in each window.',
	}),
	number('detection.position', 'detection', '1', 0.9, [1e-3, 0.999], {
		name: 'sample position',
		symbol: 'q',
		sentence: 'Where in its share of the window a reading falls, from 0 to 1.',
	}),
	number('detection.majorityWindow', 'detection', '1', 3, [1, 31], {
		kind: 'integer',
		name: 'majority window',
		symbol: 'W',
		sentence: 'How many of the latest readings vote.',
	}),
	number('detection.majorityVotes', 'detection', '1', 2, [1, 31], {
		kind: 'integer',
		name: 'majority votes',
		symbol: 'K',
		sentence: 'Votes for "crossed" that accept a crossing.',
	}),
	number('detection.blanking', 'detection', '°', 10, [0, 55], {
		name: 'blanking',
		symbol: 'β',
		sentence: 'Angle after a commutation in which readings are ignored.',
	}),
	number('detection.intervalsAveraged', 'detection', '1', 6, [1, 6], {
		kind: 'integer',
		allowed: [1, 2, 3, 6],
		name: 'intervals averaged',
		symbol: 'm',
		sentence: 'How many of the latest crossing intervals make the estimate of a sector.',
	}),
	number('detection.advance', 'detection', '°', 0, [-30, 30], {
		name: 'advance',
		symbol: 'γ',
		sentence: 'Angle by which commutation is to come before its ideal place.',
	}),
	number('detection.compensation', 'detection', 's', 'nominal', [0, 0.1], {
		word: 'nominal',
		name: 'delay compensation',
		symbol: 't_c',
		sentence:
			"Delay of detection that the firmware assumes; nominal takes each choice's own mean delay of the nominal drive.",
	}),
	number('detection.timeout', 'detection', '1', 1.4, [1.05, 10], {
		name: 'timeout',
		symbol: 'τ_o',
		sentence: 'Estimated sectors after which commutation is forced without a crossing.',
	}),
	number('noise.sigma', 'noise', 'V', 4e-3, [0, 5], {
		name: 'comparator noise',
		symbol: 'σ',
		sentence: 'Standard deviation of the wide-band noise in one reading; readings are independent.',
	}),
	number('noise.ringAmplitude', 'noise', 'V', 0, [0, 200], {
		name: 'ringing amplitude',
		symbol: 'A',
		sentence: 'Peak of the ringing at the chopped terminal after a PWM edge.',
	}),
	number('noise.ringFrequency', 'noise', 'Hz', 1e6, [1e3, 100e6], {
		name: 'ringing frequency',
		symbol: 'f_ring',
		sentence: 'Frequency of that ringing.',
	}),
	number('noise.ringDecay', 'noise', 's', 1e-6, [1e-8, 1e-3], {
		name: 'ringing decay',
		symbol: 'τ_r',
		sentence: 'Time constant of that ringing.',
	}),
	number('noise.ringCoupling', 'noise', '1', 0.5, [0, 1], {
		tolerance: assumed(0.2, 0),
		name: 'ringing coupling',
		symbol: 'κ',
		sentence: "Share of the driven terminals' ringing that the open terminal follows.",
	}),
	number('noise.ringPhaseSpread', 'noise', '°', 180, [0, 180], {
		name: 'ringing phase spread',
		symbol: 'Δψ',
		sentence: "Half-width of the phase's uniform spread from edge to edge.",
	}),
	number('trial.starts', 'trial', '1', 4, [1, 64], {
		kind: 'integer',
		name: 'starts',
		symbol: 'n_st',
		sentence: 'Runs of each unit at each point, with carrier and ripple phases spread evenly.',
	}),
	number('trial.warmup', 'trial', '1', 12, [6, 600], {
		kind: 'integer',
		name: 'warm-up sectors',
		symbol: 'n_w',
		sentence: 'Sectors commutated at the ideal angle before the loop closes.',
	}),
	number('trial.settle', 'trial', '1', 12, [0, 600], {
		kind: 'integer',
		name: 'settling sectors',
		symbol: 'n_s',
		sentence: 'Closed-loop sectors that are not counted.',
	}),
	number('trial.measured', 'trial', '1', 24, [6, 6000], {
		kind: 'integer',
		name: 'measured sectors',
		symbol: 'n_m',
		sentence: 'Closed-loop sectors that are counted.',
	}),
	number('trial.falseMargin', 'trial', '°', 10, [0.1, 30], {
		name: 'false-crossing margin',
		symbol: 'μ',
		sentence: 'Crossing error beyond which a crossing is early false or late.',
	}),
	number('trial.lostLimit', 'trial', '°', 60, [10, 180], {
		name: 'lost-lock limit',
		symbol: 'λ',
		sentence: 'Commutation-angle error beyond which the run has lost lock.',
	}),
	number('requirement.angleLimit', 'requirement', '°', 5, [0.01, 60], {
		name: 'required angle error',
		symbol: 'φ_max',
		sentence: 'Size of the commutation-angle error that a passing unit keeps within, at every operating point.',
	}),
	number('requirement.quantile', 'requirement', '1', 0.95, [0.5, 0.999], {
		name: 'required share of commutations',
		symbol: 'q',
		sentence: "Share of a unit's commutations that must keep within the required angle error.",
	}),
	number('requirement.crossingsPerHour', 'requirement', '1', 0.01, [0, 1e9], {
		name: 'allowed wrong crossings per hour',
		symbol: 'λ_max',
		sentence:
			'Early, late and missed crossings together that a passing unit may take in an operating hour, as worked out from its noise.',
	}),
	number('requirement.share', 'requirement', '1', 0.95, [0.01, 0.999999], {
		name: 'required share of units',
		symbol: 'P',
		sentence: 'Share of all units that must pass every operating point.',
	}),
	number('requirement.confidence', 'requirement', '1', 0.95, [0.5, 0.9999], {
		name: 'required confidence',
		symbol: 'C',
		sentence: 'Confidence with which that share must be shown before the requirement holds or fails.',
	}),
];

export const parameterById: ReadonlyMap<string, ParameterRecord> = new Map(parameters.map((p) => [p.id, p]));

/** The record of a parameter; throws on an unknown id, which is a programmer's mistake. */
export function parameter(id: string): ParameterRecord {
	const found = parameterById.get(id);
	if (!found) throw new Error(`no parameter ${id}`);
	return found;
}
