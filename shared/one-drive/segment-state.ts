import { openPhase } from '../drive/commutation-table.ts';
import { highDiode, highSwitch, lowSwitch, open, type Tie } from '../drive/conduction-mode.ts';
import type { PowerStage } from '../drive/power-stage/power-stage.ts';
import type { Ringing } from '../drive/ringing.ts';

const single = [0, 1, 2].map((k) => Float64Array.from([0, 1, 2], (other) => (other === k ? 1 : 0)));

/**
 * Voltages and currents of a segment in hand, worked out from its modal currents for drawing. The simulation itself
 * needs none of the terminal voltages.
 */
export class SegmentState {
	/** Of phases a, b, c: back-EMF, V; winding current, A; terminal voltage against the bus negative, V, ringing included. */
	readonly emf = new Float64Array(3);
	readonly current = new Float64Array(3);
	readonly terminal = new Float64Array(3);
	/** N·m. */
	torque = 0;

	/** Works out everything `s` seconds into the stage's segment in hand. */
	read(stage: PowerStage, ringing: Ringing, s: number): void {
		const { circuit, mode, history, segment } = stage;
		const { emf, current, terminal } = this;
		const { point } = history;
		point.goTo(circuit, history.count, s);
		const ripple = circuit.rippleAmplitude === 0 ? 0 : circuit.rippleAmplitude * point.zIm;
		current.set(stage.currentsAt(s));
		this.torque = 0;
		for (let k = 0; k < 3; k++) {
			emf[k] = circuit.sinusoidal
				? (circuit.emfRe[k] as number) * point.wIm + (circuit.emfIm[k] as number) * point.wRe
				: segment.emfAt(k, s);
			this.torque += ((emf[k] as number) * (current[k] as number)) / circuit.omegaMechanical;
		}
		// y_m = Σ U_km L_k i_k
		let y0 = 0;
		let y1 = 0;
		for (let k = 0; k < 3; k++) {
			const flux = (circuit.inductance[k] as number) * (current[k] as number);
			y0 += mode.u(k, 0) * flux;
			y1 += mode.u(k, 1) * flux;
		}
		const low = mode.lowRail0 * y0 + mode.lowRail1 * y1;
		const neutral =
			mode.neutral +
			mode.neutralRipple * ripple +
			mode.neutralEmfA * (emf[0] as number) +
			mode.neutralEmfB * (emf[1] as number) +
			mode.neutralEmfC * (emf[2] as number) +
			mode.neutral0 * y0 +
			mode.neutral1 * y1;
		const rings = this.rings(stage, ringing, s);
		for (let k = 0; k < 3; k++) {
			const tie = mode.ties[k] as Tie;
			if (tie === open) terminal[k] = (emf[k] as number) + neutral;
			else {
				const rail = circuit.railOf(tie) + (tie === highSwitch || tie === highDiode ? ripple : low);
				const isSwitch = tie === highSwitch || tie === lowSwitch;
				terminal[k] = rail - (isSwitch ? circuit.switchResistance * (current[k] as number) : 0);
			}
			if (rings) {
				const weights = single[k] as Float64Array;
				terminal[k] =
					(terminal[k] as number) + ringing.weight(weights, stage.kind, segment.ringKind, mode) * ringing.re;
			}
		}
	}

	/** Whether the latest edge still rings there; its ringing is then in `ringing.re`. */
	private rings(stage: PowerStage, ringing: Ringing, s: number): boolean {
		if (ringing.amplitude === 0) return false;
		const { start, ringTime, ringPeriod, ringEdge } = stage.segment;
		ringing.age = start + s - ringTime;
		return ringing.evaluate(ringPeriod, ringEdge);
	}
}

/** The phase whose terminal is sensed in the stage's present sector. */
export const sensedPhase = (stage: PowerStage): number => openPhase[stage.kind] as number;
