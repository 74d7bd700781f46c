import type { Drive, Phases } from '../../shared/drive/drive.ts';

/*
 * The drive's differential equations as the model page states them, written a
 * second time and as plainly as possible: nothing here is taken from the
 * engine, which is judged by it.
 */

/** How a terminal is held: not at all, by a switch or a diode to the high or the low rail. */
export type Hold = 'open' | 'high switch' | 'low switch' | 'high diode' | 'low diode';
export type Holds = readonly [Hold, Hold, Hold];

/** Places in the state: currents 0…2, sense nodes 3…5, star node, bus divider, ∫Σ e_k i_k dt. */
export const starNode = 6;
export const busNode = 7;
export const work = 8;
export const stateSize = 9;

/** The latest PWM edge, where ringing is simulated. */
export interface Edge {
	readonly time: number;
	/** + after a turn-on, − after a turn-off. */
	readonly sign: 1 | -1;
	/** Phases tied to the high and the low rail in its sector. */
	readonly high: number;
	readonly low: number;
}

/** Six sectors: phase at the high rail, at the low rail, open; whether the open one's EMF rises. */
export const sectors = [
	{ high: 0, low: 1, open: 2, rises: false },
	{ high: 0, low: 2, open: 1, rises: true },
	{ high: 1, low: 2, open: 0, rises: false },
	{ high: 1, low: 0, open: 2, rises: true },
	{ high: 2, low: 0, open: 1, rises: false },
	{ high: 2, low: 1, open: 0, rises: true },
] as const;

const turn = 2 * Math.PI;
const phases = [0, 1, 2] as const;

/** Everything of one drive that its equations need, and their right-hand side. */
export class PlainEquations {
	/** Terminals, neutral and rails where `terminals` was last asked, V. */
	readonly v: [number, number, number] = [0, 0, 0];
	readonly e: [number, number, number] = [0, 0, 0];
	readonly rate: [number, number, number] = [0, 0, 0];
	vn = 0;
	bus = 0;
	low = 0;
	evaluations = 0;

	readonly speed: number;
	/** Electrical, degrees per second. */
	readonly degrees: number;
	private readonly emf: Phases;
	private readonly senseGain: Phases;
	private readonly senseTau: Phases;
	private readonly busGain: number;
	private readonly busTau: number;
	private readonly starWeight: Phases;
	private readonly starTau: number;
	private readonly rates: number[] = new Array<number>(stateSize).fill(0);
	readonly drive: Drive;

	constructor(drive: Drive) {
		this.drive = drive;
		const { motor, operation, sensing } = drive;
		this.speed = (turn * operation.speed) / 60;
		this.degrees = (motor.polePairs * this.speed * 360) / turn;
		this.emf = each((k) => motor.emfConstant[k] * this.speed);
		const { divider, halfBus, virtualNeutral } = sensing;
		this.senseGain = each((k) => divider.bottom[k] / (divider.top[k] + divider.bottom[k]));
		this.senseTau = each((k) => divider.capacitor[k] * divider.top[k] * this.senseGain[k]);
		this.busGain = halfBus.bottom / (halfBus.top + halfBus.bottom);
		this.busTau = halfBus.capacitor * halfBus.top * this.busGain;
		const { star, ground, capacitor } = virtualNeutral;
		const admittance = 1 / star[0] + 1 / star[1] + 1 / star[2] + 1 / ground;
		this.starWeight = each((k) => 1 / star[k] / admittance);
		this.starTau = capacitor / admittance;
	}

	/** At t = 0: no currents, sense and star nodes empty, the bus divider at its own level. */
	initial(): number[] {
		const y = new Array<number>(stateSize).fill(0);
		y[busNode] = this.busGain * this.drive.supply.voltage;
		return y;
	}

	/** Electrical angle, degrees, at time t. */
	angle(t: number): number {
		return 30 + this.degrees * t;
	}

	/** First time after t, s, at which a trapezoid has a corner; the shape has four a turn, at ±F/2 around 90° and 270°. */
	cornerAfter(t: number): number {
		const { sinusoidal, flatTop, placement } = this.drive.motor;
		let next = Infinity;
		if (sinusoidal) return next;
		for (const k of phases) {
			for (const corner of [90 - flatTop / 2, 90 + flatTop / 2, 270 - flatTop / 2, 270 + flatTop / 2]) {
				const first = corner + 120 * k + placement[k] - 30;
				// a corner less than 10⁻¹⁵ s away is the one that was just passed
				const turns = Math.floor((this.degrees * (t + 1e-15) - first) / 360) + 1;
				next = Math.min(next, (first + 360 * turns) / this.degrees);
			}
		}
		return next;
	}

	/** Bus voltage and back-EMFs at time t. */
	private sources(t: number): void {
		const { supply, motor } = this.drive;
		this.bus =
			supply.voltage + supply.rippleAmplitude * Math.sin(turn * (supply.rippleFrequency * t + supply.ripplePhase));
		const angle = this.angle(t);
		for (const k of phases) {
			const x = angle - 120 * k - motor.placement[k];
			this.e[k] = this.emf[k] * (motor.sinusoidal ? Math.sin((turn * x) / 360) : trapezoid(x, motor.flatTop));
		}
	}

	/** Terminals, neutral and current slopes at time t for currents `i` (first three of the state). */
	terminals(t: number, i: readonly number[], holds: Holds): void {
		const { motor, inverter } = this.drive;
		const { v, e, rate } = this;
		this.sources(t);
		let busCurrent = 0;
		for (const k of phases) if (isHigh(holds[k])) busCurrent += i[k] as number;
		this.low = inverter.shuntResistance * busCurrent;
		let weighted = 0;
		let weights = 0;
		for (const k of phases) {
			const hold = holds[k];
			if (hold === 'open') continue;
			const current = i[k] as number;
			if (hold === 'high switch') v[k] = this.bus - inverter.switchResistance * current;
			else if (hold === 'low switch') v[k] = this.low - inverter.switchResistance * current;
			else if (hold === 'high diode') v[k] = this.bus + inverter.diodeDrop;
			else v[k] = this.low - inverter.diodeDrop;
			weighted += (v[k] - motor.phaseResistance[k] * current - e[k]) / motor.phaseInductance[k];
			weights += 1 / motor.phaseInductance[k];
		}
		this.vn = weights > 0 ? weighted / weights : this.bus / 2 - (e[0] + e[1] + e[2]) / 3;
		for (const k of phases) {
			if (holds[k] === 'open') {
				v[k] = e[k] + this.vn;
				rate[k] = 0;
			} else {
				rate[k] = (v[k] - motor.phaseResistance[k] * (i[k] as number) - e[k] - this.vn) / motor.phaseInductance[k];
			}
		}
	}

	/** dy/dt; the array is reused. */
	derivative(t: number, y: readonly number[], holds: Holds, open: number, edge: Edge | null): number[] {
		const { v, e, rate, rates } = this;
		this.evaluations++;
		this.terminals(t, y, holds);
		let power = 0;
		for (const k of phases) {
			rates[k] = rate[k];
			power += e[k] * (y[k] as number);
		}
		if (edge !== null) this.addRinging(t, holds, open, edge);
		let star = 0;
		for (const k of phases) {
			rates[3 + k] = (this.senseGain[k] * v[k] - (y[3 + k] as number)) / this.senseTau[k];
			star += this.starWeight[k] * v[k];
		}
		rates[starNode] = (star - (y[starNode] as number)) / this.starTau;
		rates[busNode] = (this.busGain * this.bus - (y[busNode] as number)) / this.busTau;
		rates[work] = power;
		return rates;
	}

	/** Adds r(a) to the chopped terminals, and κ times their sum to the open one unless its diode conducts. */
	private addRinging(t: number, holds: Holds, open: number, edge: Edge): void {
		const { noise, inverter } = this.drive;
		const age = t - edge.time;
		const r =
			edge.sign *
			noise.ringAmplitude *
			Math.exp(-age / noise.ringDecay) *
			Math.cos(turn * (noise.ringFrequency * age + noise.ringPhase));
		const rings: [number, number, number] = [0, 0, 0];
		if (inverter.chopping !== 'low-side') rings[edge.high as 0] += r;
		if (inverter.chopping === 'low-side' || inverter.chopping === 'both') rings[edge.low as 0] -= r;
		const own = holds[open as 0];
		rings[open as 0] = 0;
		if (own !== 'high diode' && own !== 'low diode')
			rings[open as 0] = noise.ringCoupling * (rings[0] + rings[1] + rings[2]);
		for (const k of phases) this.v[k] += rings[k];
	}
}

const isHigh = (hold: Hold): boolean => hold === 'high switch' || hold === 'high diode';
export const isDiode = (hold: Hold): boolean => hold === 'high diode' || hold === 'low diode';

/** Unit trapezoid: rising zero at 0°, flat top `flat` wide around 90°. */
function trapezoid(degrees: number, flat: number): number {
	const x = degrees - 360 * Math.floor((degrees + 90) / 360); // −90 … 270
	const ramp = 90 - flat / 2;
	const height = (x < 90 ? x : 180 - x) / ramp;
	return Math.max(-1, Math.min(1, height));
}

const each = (make: (k: 0 | 1 | 2) => number): Phases => [make(0), make(1), make(2)];
