import { decayInPlace } from '../../maths/decay.ts';
import { realZero } from '../../maths/real-zero.ts';
import type { Circuit } from '../circuit.ts';
import { type Ringing, ringDecays } from '../ringing.ts';
import type { Segment } from '../segment.ts';
import type { SegmentHistory } from '../segment-history.ts';

/**
 * A node is worked out from this many of its time constants before it is read;
 * what came earlier weighs less than e⁻¹⁸ = 1.5·10⁻⁸ of its voltage.
 */
export const lookBackConstants = 18;

/** Up to this time all nodes are at 0 V, but for rounding, s. */
const atRest = 1e-12;

/**
 * One sensing node behind its first-order network, driven by the terminals:
 * τ v' = Σ w_k v_k − v, from 0 V at t = 0. Its voltage is worked out from the
 * trajectory's segments in closed form, and only when it is read.
 */
export class NetworkNode {
	/** The node's voltage at the last reading without ringing, and the ringing's part of it, V. */
	value = realZero;
	ringing = realZero;
	/** Where that was: segment, time in it (s), and what held there (reading-point.ts). */
	private index = -1;
	private position = realZero;
	private zRe = realZero;
	private zIm = realZero;
	private wRe = realZero;
	private wIm = realZero;
	private decay0 = realZero;
	private decay1 = realZero;
	/** e^{−h/τ} of the last two lengths h that were gone through: whole periods repeat theirs. */
	private readonly memo = new Float64Array([-1, 0, -1, 0]);
	/** The part of a segment gone through, s: for `ring`, as whose arguments they would be put on the heap. */
	private from = realZero;
	private to = realZero;
	private readonly node: number;

	/** @param node 0…2 the phases' sense nodes, 3 the star node */
	constructor(node: number) {
		this.node = node;
	}

	reset(): void {
		this.index = -1;
		this.memo[0] = this.memo[2] = -1;
	}

	/** Brings the node to the history's reading point, in a segment in hand or taken. */
	read(history: SegmentHistory, circuit: Circuit, ringing: Ringing): void {
		const tau = circuit.nodeTau[this.node] as number;
		const { point } = history;
		const { index: target, s } = point;
		const { memo } = this;
		const from = history.at(target).start + s - lookBackConstants * tau;
		if (this.index < history.oldest || history.at(this.index).start + this.position < from) {
			this.restart(history, circuit);
		}
		let { index, position, value } = this;
		for (; ; index++, position = 0) {
			const last = index === target;
			const segment = history.at(index);
			const { mode } = segment;
			const end = last ? s : segment.length;
			const h = end - position;
			if (h > 0) {
				if (h !== memo[0]) {
					const length = memo[0] as number;
					const fade = memo[1] as number;
					if (h === memo[2]) {
						memo[0] = memo[2] as number;
						memo[1] = memo[3] as number;
					} else {
						memo[0] = h;
						memo[1] = h / tau;
						decayInPlace(memo, 1);
					}
					memo[2] = length;
					memo[3] = fade;
				}
				const node = mode.node(circuit, this.node);
				// forced response: constant, the modal currents' own and what decays in them …
				let before = node.constant;
				let decaying = 0;
				let after = 0;
				if (mode.modalCount > 0) {
					before += node.modal0 * segment.a0;
					const part0 = node.decay0 * segment.d0;
					after = part0 * (last ? point.decay0 : segment.decay0);
					decaying = position === 0 ? part0 : part0 * this.decay0;
					if (mode.modalCount > 1) {
						before += node.modal1 * segment.a1;
						const part1 = node.decay1 * segment.d1;
						after += part1 * (last ? point.decay1 : segment.decay1);
						decaying += position === 0 ? part1 : part1 * this.decay1;
					}
				}
				// … ramps, of trapezoidal back-EMFs alone …
				if (!circuit.sinusoidal) {
					let ramp = node.emfA * segment.slopeA + node.emfB * segment.slopeB + node.emfC * segment.slopeC;
					before += node.emfA * segment.emfA + node.emfB * segment.emfB + node.emfC * segment.emfC;
					if (mode.modalCount > 0) ramp += node.modal0 * segment.b0;
					if (mode.modalCount > 1) ramp += node.modal1 * segment.b1;
					before += ramp * (position - tau);
					after += ramp * h;
				}
				after += before;
				before += decaying;
				// … and sinusoids; where the segment ends the next one begins
				const next = last ? segment : history.at(index + 1);
				if (circuit.rippleAmplitude !== 0) {
					const zRe = position === 0 ? segment.zRe : this.zRe;
					const zIm = position === 0 ? segment.zIm : this.zIm;
					const zReEnd = last ? point.zRe : next.zRe;
					const zImEnd = last ? point.zIm : next.zIm;
					before += node.rippleRe * zIm + node.rippleIm * zRe;
					after += node.rippleRe * zImEnd + node.rippleIm * zReEnd;
				}
				if (circuit.sinusoidal) {
					const wRe = position === 0 ? segment.wRe : this.wRe;
					const wIm = position === 0 ? segment.wIm : this.wIm;
					const wReEnd = last ? point.wRe : next.wRe;
					const wImEnd = last ? point.wIm : next.wIm;
					before += node.emfRe * wIm + node.emfIm * wRe;
					after += node.emfRe * wImEnd + node.emfIm * wReEnd;
				}
				value = after + (value - before) * (memo[1] as number);
				if (ringing.amplitude !== 0) {
					this.from = position;
					this.to = end;
					this.ring(segment, circuit, ringing);
				}
			}
			if (last) break;
		}
		this.index = target;
		this.position = s;
		this.zRe = point.zRe;
		this.zIm = point.zIm;
		this.wRe = point.wRe;
		this.wIm = point.wIm;
		this.decay0 = point.decay0;
		this.decay1 = point.decay1;
		this.value = value;
	}

	/** Starts at the segment that holds the time from which on it counts; at rest at t = 0, else on the forced response. */
	private restart(history: SegmentHistory, circuit: Circuit): void {
		const { oldest, point } = history;
		const { index: target, s } = point;
		const from = history.at(target).start + s - lookBackConstants * (circuit.nodeTau[this.node] as number);
		// the last of them that starts no later, the oldest where none does
		let index = oldest;
		for (let beyond = target + 1; beyond - index > 1; ) {
			const middle = (index + beyond) >> 1;
			if (history.at(middle).start > from) beyond = middle;
			else index = middle;
		}
		const segment = history.at(index);
		this.index = index;
		this.position = 0;
		this.ringing = 0;
		this.value = 0;
		if (segment.start <= atRest) return;
		if (segment.start > from) throw new Error('the segment history is too short for a sensing network');
		// near the forced response there is least to forget: the network's gain times the terminals' mean is near enough
		const node = segment.mode.node(circuit, this.node);
		this.value = node.constant;
	}

	/** The ringing's part: its forced response Re(w·r/(1 + στ)), the rest decaying with the network. */
	private ring(segment: Segment, circuit: Circuit, ringing: Ringing): void {
		const { from, to } = this;
		const fade = this.memo[1] as number;
		const age = segment.start - segment.ringTime;
		const weights = circuit.nodeWeights[this.node] as Float64Array;
		const weight =
			age + from < ringDecays / -ringing.sigmaRe
				? ringing.weight(weights, segment.kind, segment.ringKind, segment.mode)
				: 0;
		if (weight === 0) {
			this.ringing *= fade;
			return;
		}
		const period = segment.ringPeriod;
		const edge = segment.ringEdge;
		const tau = circuit.nodeTau[this.node] as number;
		const re = 1 + ringing.sigmaRe * tau;
		const im = ringing.sigmaIm * tau;
		const scale = weight / (re * re + im * im);
		ringing.age = age + from;
		const before = ringing.evaluate(period, edge) ? scale * (ringing.re * re + ringing.im * im) : 0;
		ringing.age = age + to;
		const after = ringing.evaluate(period, edge) ? scale * (ringing.re * re + ringing.im * im) : 0;
		this.ringing = after + (this.ringing - before) * fade;
	}
}
