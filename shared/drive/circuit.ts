import cosine from '@stdlib/math-base-special-cos';
import sine from '@stdlib/math-base-special-sin';
import { realZero } from '../maths/real-zero.ts';
import {
	type CircuitConstants,
	ConductionMode,
	highDiode,
	highSwitch,
	lowDiode,
	modeCode,
	modeCodes,
	nodeCount,
	starNode,
	type Tie,
} from './conduction-mode.ts';
import type { Drive } from './drive.ts';

/** Degrees to radians. */
export const radian = Math.PI / 180;

/** PWM periods that a winding's current may take to decay (L/R) before it counts as slow. */
const slowDecay = 1000;

/**
 * Everything about one drive that stays put during its runs, in the form the
 * hot loops read, and its conduction modes, computed when first met. Reused
 * from drive to drive (`load`), so that nothing is allocated per run.
 */
export class Circuit implements CircuitConstants {
	resistance = new Float64Array(3);
	inductance = new Float64Array(3);
	/** Peak back-EMF of each phase at the run's speed, V. */
	emfPeak = new Float64Array(3);
	/** Phasor of each phase's sinusoidal back-EMF: e_k = Im((emfRe + j·emfIm)·e^{jθ}). */
	emfRe = new Float64Array(3);
	emfIm = new Float64Array(3);
	sinusoidal = false;
	/** Mechanical and electrical angular speed, rad/s. */
	omegaMechanical = realZero;
	omega = realZero;
	voltage = realZero;
	rippleAmplitude = realZero;
	rippleOmega = realZero;
	switchResistance = realZero;
	shuntResistance = realZero;
	diodeDrop = realZero;
	period = realZero;
	/** Whether currents hardly decay within a segment: what divides by their decay rate squared then loses its digits. */
	slowWindings = false;
	/** Of the nodes driven by terminals: time constants (s) and the weight of each terminal's voltage. */
	nodeTau = new Float64Array(nodeCount);
	nodeWeights: readonly Float64Array[] = Array.from({ length: nodeCount }, () => new Float64Array(3));
	/** The bus divider: gain and time constant. */
	halfBusGain = realZero;
	halfBusTau = realZero;
	private readonly modes: ConductionMode[] = [];
	private readonly known = new Uint8Array(modeCodes);

	load(drive: Drive): void {
		const { motor, inverter, supply, operation, sensing } = drive;
		this.omegaMechanical = (operation.speed * 2 * Math.PI) / 60;
		this.omega = this.omegaMechanical * motor.polePairs;
		this.sinusoidal = motor.sinusoidal;
		this.voltage = supply.voltage;
		this.rippleAmplitude = supply.rippleAmplitude;
		this.rippleOmega = 2 * Math.PI * supply.rippleFrequency;
		this.switchResistance = inverter.switchResistance;
		this.shuntResistance = inverter.shuntResistance;
		this.diodeDrop = inverter.diodeDrop;
		this.period = 1 / inverter.pwmFrequency;
		const { divider, halfBus, virtualNeutral } = sensing;
		const star = this.nodeWeights[starNode] as Float64Array;
		let admittance = 1 / virtualNeutral.ground;
		this.slowWindings = false;
		for (const r of virtualNeutral.star) admittance += 1 / r;
		for (let k = 0; k < 3; k++) {
			this.resistance[k] = motor.phaseResistance[k] as number;
			this.inductance[k] = motor.phaseInductance[k] as number;
			if ((this.inductance[k] as number) > slowDecay * this.period * (this.resistance[k] as number)) {
				this.slowWindings = true;
			}
			const peak = (motor.emfConstant[k] as number) * this.omegaMechanical;
			this.emfPeak[k] = peak;
			if (motor.sinusoidal) {
				const angle = (120 * k + (motor.placement[k] as number)) * radian;
				this.emfRe[k] = peak * cosine(angle);
				this.emfIm[k] = -peak * sine(angle);
			}
			// τ = C·(R_top ∥ R_bot), g = R_bot/(R_top + R_bot)
			const top = divider.top[k] as number;
			const bottom = divider.bottom[k] as number;
			const weights = this.nodeWeights[k] as Float64Array;
			weights.fill(0);
			weights[k] = bottom / (top + bottom);
			this.nodeTau[k] = ((divider.capacitor[k] as number) * (top * bottom)) / (top + bottom);
			star[k] = 1 / ((virtualNeutral.star[k] as number) * admittance);
		}
		this.nodeTau[starNode] = virtualNeutral.capacitor / admittance;
		this.halfBusGain = halfBus.bottom / (halfBus.top + halfBus.bottom);
		this.halfBusTau = (halfBus.capacitor * (halfBus.top * halfBus.bottom)) / (halfBus.top + halfBus.bottom);
		this.known.fill(0);
	}

	/** The constant part of the voltage that a tie holds the terminal at, V. */
	railOf(tie: Tie): number {
		if (tie === highSwitch) return this.voltage;
		if (tie === highDiode) return this.voltage + this.diodeDrop;
		return tie === lowDiode ? -this.diodeDrop : 0;
	}

	mode(a: Tie, b: Tie, c: Tie): ConductionMode {
		const code = modeCode(a, b, c);
		let mode = this.modes[code];
		if (this.known[code] === 1) return mode as ConductionMode;
		if (!mode) {
			mode = new ConductionMode();
			this.modes[code] = mode;
		}
		mode.set(this, a, b, c);
		this.known[code] = 1;
		return mode;
	}
}
