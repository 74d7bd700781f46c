import cosine from '@stdlib/math-base-special-cos';
import sine from '@stdlib/math-base-special-sin';
import { decayInPlace } from '../../maths/decay.ts';
import { realZero } from '../../maths/real-zero.ts';
import type { Circuit } from '../circuit.ts';
import type { Drive } from '../drive.ts';
import type { SegmentHistory } from '../segment-history.ts';
import type { Threshold } from './threshold.ts';

const fade = new Float64Array(1);

/**
 * Half the bus: a filtered divider of the high rail,
 * τ_h v_h' = g_h (V + A_r sin(2πf_r t + φ_r)) − v_h from g_h·V at t = 0, so
 * v_h(t) = g_h V + Im(H z(t)) − Im(H z(0)) e^{−t/τ_h}, H = g_h A_r/(1 + jΩτ_h).
 */
export class HalfBus implements Threshold {
	value = realZero;
	readonly ringing = 0;
	readonly node = -1;
	private constant = realZero;
	private gainRe = realZero;
	private gainIm = realZero;
	private start = realZero;

	reset(drive: Drive, circuit: Circuit): void {
		this.constant = circuit.halfBusGain * circuit.voltage;
		const wt = circuit.rippleOmega * circuit.halfBusTau;
		const size = (circuit.halfBusGain * circuit.rippleAmplitude) / (1 + wt * wt);
		this.gainRe = size;
		this.gainIm = -size * wt;
		const phase = 2 * Math.PI * drive.supply.ripplePhase;
		this.start = this.gainRe * sine(phase) + this.gainIm * cosine(phase);
	}

	rewind(): void {}

	busGain(circuit: Circuit): number {
		return circuit.halfBusGain;
	}

	read(history: SegmentHistory, circuit: Circuit): void {
		this.value = this.constant;
		if (circuit.rippleAmplitude === 0) return;
		const { point } = history;
		const time = history.at(point.index).start + point.s;
		this.value += this.gainRe * point.zIm + this.gainIm * point.zRe;
		// e⁻⁴⁰ of what is left from the start is nothing
		if (time < 40 * circuit.halfBusTau) {
			fade[0] = time / circuit.halfBusTau;
			decayInPlace(fade, 0);
			this.value -= this.start * (fade[0] as number);
		}
	}
}
