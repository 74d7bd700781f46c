import { decay as decayOf } from '../../maths/decay.ts';
import { smallCosine, smallSine } from '../../maths/small-angle.ts';
import type { Circuit } from '../circuit.ts';
import type { ConductionMode, NodeDrive } from '../conduction-mode.ts';
import { type Ringing, ringDecays } from '../ringing.ts';
import * as segment from '../segment-fields.ts';
import type { SegmentHistory } from '../segment-history.ts';

/**
 * A node is worked out from this many of its time constants before it is read;
 * what came earlier weighs less than e⁻¹⁸ = 1.5·10⁻⁸ of its voltage.
 */
export const lookBackConstants = 18;

/**
 * One sensing node behind its first-order network, driven by the terminals:
 * τ v' = Σ w_k v_k − v, from 0 V at t = 0. Its voltage is worked out from the
 * trajectory's segments in closed form, and only when it is read.
 */
export class NetworkNode {
	/** The node's voltage at the last reading without ringing, and the ringing's part of it, V. */
	value = 0;
	ringing = 0;
	private index = -1;
	// arguments and result of `force`, in fields: passed along they would be put on the heap
	private s = 0;
	private decay0 = 1;
	private decay1 = 1;
	private forced = 0;
	private position = 0;
	private memoLength = -1;
	private memoDecay = 0;
	private readonly node: number;

	/** @param node 0…2 the phases' sense nodes, 3 the star node */
	constructor(node: number) {
		this.node = node;
	}

	reset(): void {
		this.index = -1;
		this.memoLength = -1;
	}

	/** Brings the node to `s` seconds into segment `target` (in hand or taken). */
	read(history: SegmentHistory, circuit: Circuit, ringing: Ringing, target: number, s: number): void {
		const tau = circuit.nodeTau[this.node] as number;
		const v = history.values;
		const time = (v[history.offset(target) + segment.start] as number) + s;
		const from = time - lookBackConstants * tau;
		if (this.index < 0 || (v[history.offset(this.index) + segment.start] as number) + this.position < from) {
			this.restart(history, circuit, target, from);
		}
		while (this.index < target) {
			this.through(history, circuit, ringing, v[history.offset(this.index) + segment.length] as number);
			this.index++;
			this.position = 0;
		}
		this.through(history, circuit, ringing, s);
	}

	/** Starts at the segment that holds `from`; at rest at t = 0, else on the forced response. */
	private restart(history: SegmentHistory, circuit: Circuit, target: number, from: number): void {
		const v = history.values;
		let index = target;
		while (index > history.oldest && (v[history.offset(index) + segment.start] as number) > from) index--;
		const slot = history.offset(index);
		this.index = index;
		this.position = 0;
		this.ringing = 0;
		if (index === 0) {
			this.value = 0;
			return;
		}
		if ((v[slot + segment.start] as number) > from)
			throw new Error('the segment history is too short for a sensing network');
		this.s = 0;
		this.decay0 = this.decay1 = 1;
		this.force(v, slot, history.mode(index), circuit);
		this.value = this.forced;
	}

	/** From the present position to `s` in the present segment. */
	private through(history: SegmentHistory, circuit: Circuit, ringing: Ringing, s: number): void {
		const { position } = this;
		const h = s - position;
		if (h <= 0) return;
		const tau = circuit.nodeTau[this.node] as number;
		if (h !== this.memoLength) {
			this.memoLength = h;
			this.memoDecay = decayOf(h / tau);
		}
		const decay = this.memoDecay;
		const v = history.values;
		const slot = history.offset(this.index);
		const mode = history.mode(this.index);
		this.s = position;
		this.decay0 = this.decay1 = 1;
		if (position !== 0) {
			this.decay0 = decayOf(mode.rate0 * position);
			this.decay1 = decayOf(mode.rate1 * position);
		}
		this.force(v, slot, mode, circuit);
		const before = this.forced;
		this.s = s;
		if (s === (v[slot + segment.length] as number)) {
			this.decay0 = v[slot + segment.decay0] as number;
			this.decay1 = v[slot + segment.decay1] as number;
		} else {
			this.decay0 = decayOf(mode.rate0 * s);
			this.decay1 = decayOf(mode.rate1 * s);
		}
		this.force(v, slot, mode, circuit);
		this.value = this.forced + (this.value - before) * decay;
		this.position = s;
		if (ringing.amplitude !== 0) this.ring(history, circuit, ringing, slot, mode, position, s, decay);
	}

	/** The forced response `s` seconds into the segment, with decay0 and decay1 its e^{−λ_m s}, into `forced`. */
	private force(v: Float64Array, slot: number, mode: ConductionMode, circuit: Circuit): void {
		const { s, decay0, decay1 } = this;
		const node: NodeDrive = mode.node(circuit, this.node);
		const ahead = s - (circuit.nodeTau[this.node] as number);
		let sum = node.constant;
		if (circuit.sinusoidal) {
			const c = smallCosine(circuit.omega * s);
			const q = smallSine(circuit.omega * s);
			const wRe = v[slot + segment.wRe] as number;
			const wIm = v[slot + segment.wIm] as number;
			sum += node.emfRe * (wRe * q + wIm * c) + node.emfIm * (wRe * c - wIm * q);
		} else {
			sum +=
				node.emfA * ((v[slot + segment.emfA] as number) + (v[slot + segment.slopeA] as number) * ahead) +
				node.emfB * ((v[slot + segment.emfB] as number) + (v[slot + segment.slopeB] as number) * ahead) +
				node.emfC * ((v[slot + segment.emfC] as number) + (v[slot + segment.slopeC] as number) * ahead);
		}
		if (mode.modalCount > 0) {
			sum +=
				node.modal0 * ((v[slot + segment.a0] as number) + (v[slot + segment.b0] as number) * ahead) +
				node.decay0 * (v[slot + segment.d0] as number) * decay0;
			if (mode.modalCount > 1) {
				sum +=
					node.modal1 * ((v[slot + segment.a1] as number) + (v[slot + segment.b1] as number) * ahead) +
					node.decay1 * (v[slot + segment.d1] as number) * decay1;
			}
		}
		if (circuit.rippleAmplitude !== 0) {
			const zRe = v[slot + segment.zRe] as number;
			const zIm = v[slot + segment.zIm] as number;
			const c = smallCosine(circuit.rippleOmega * s);
			const q = smallSine(circuit.rippleOmega * s);
			sum += node.rippleRe * (zRe * q + zIm * c) + node.rippleIm * (zRe * c - zIm * q);
		}
		this.forced = sum;
	}

	/** The ringing's part: its forced response Re(w·r/(1 + στ)), the rest decaying with the network. */
	private ring(
		history: SegmentHistory,
		circuit: Circuit,
		ringing: Ringing,
		slot: number,
		mode: ConductionMode,
		from: number,
		to: number,
		decay: number,
	): void {
		const v = history.values;
		const age = (v[slot + segment.start] as number) - (v[slot + segment.ringTime] as number);
		const weights = circuit.nodeWeights[this.node] as Float64Array;
		const weight =
			age + from < ringDecays / -ringing.sigmaRe
				? ringing.weight(weights, v[slot + segment.kind] as number, v[slot + segment.ringKind] as number, mode)
				: 0;
		if (weight === 0) {
			this.ringing *= decay;
			return;
		}
		const period = v[slot + segment.ringPeriod] as number;
		const edge = v[slot + segment.ringEdge] as number;
		const tau = circuit.nodeTau[this.node] as number;
		const re = 1 + ringing.sigmaRe * tau;
		const im = ringing.sigmaIm * tau;
		const scale = weight / (re * re + im * im);
		const before = ringing.evaluate(age + from, period, edge) ? scale * (ringing.re * re + ringing.im * im) : 0;
		const after = ringing.evaluate(age + to, period, edge) ? scale * (ringing.re * re + ringing.im * im) : 0;
		this.ringing = after + (this.ringing - before) * decay;
	}
}
