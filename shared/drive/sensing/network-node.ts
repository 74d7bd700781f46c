import { decayInPlace } from '../../maths/decay.ts';
import { realZero } from '../../maths/real-zero.ts';
import { turnInPlace } from '../../maths/small-angle.ts';
import type { Circuit } from '../circuit.ts';
import type { ConductionMode } from '../conduction-mode.ts';
import { type Ringing, ringDecays } from '../ringing.ts';
import * as segment from '../segment-fields.ts';
import { decayAt0, decayAt1, type SegmentHistory, secondsAt, wImAt, wReAt, zImAt, zReAt } from '../segment-history.ts';

/**
 * A node is worked out from this many of its time constants before it is read;
 * what came earlier weighs less than e⁻¹⁸ = 1.5·10⁻⁸ of its voltage.
 */
export const lookBackConstants = 18;

const scratch = new Float64Array(2);

/**
 * One sensing node behind its first-order network, driven by the terminals:
 * τ v' = Σ w_k v_k − v, from 0 V at t = 0. Its voltage is worked out from the
 * trajectory's segments in closed form, and only when it is read.
 */
export class NetworkNode {
	/** The node's voltage at the last reading without ringing, and the ringing's part of it, V. */
	value = realZero;
	ringing = realZero;
	private index = -1;
	private position = realZero;
	/** e^{−h/τ} of the last two lengths h that were gone through: whole periods repeat theirs. */
	private readonly memo = new Float64Array([-1, 0, -1, 0]);
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
		const v = history.values;
		const { point, target } = history;
		const s = point[secondsAt] as number;
		const { memo } = this;
		const from = (v[history.offset(target) + segment.start] as number) + s - lookBackConstants * tau;
		if (
			this.index < history.oldest ||
			(v[history.offset(this.index) + segment.start] as number) + this.position < from
		) {
			this.restart(history, circuit);
		}
		let { index, position, value } = this;
		for (; ; index++, position = 0) {
			const last = index === target;
			const slot = history.offset(index);
			const mode = history.mode(index);
			const end = last ? s : (v[slot + segment.length] as number);
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
				// forced response: constant and ramp …
				let ramp = 0;
				let before = node.constant;
				if (!circuit.sinusoidal) {
					ramp =
						node.emfA * (v[slot + segment.slopeA] as number) +
						node.emfB * (v[slot + segment.slopeB] as number) +
						node.emfC * (v[slot + segment.slopeC] as number);
					before +=
						node.emfA * (v[slot + segment.emfA] as number) +
						node.emfB * (v[slot + segment.emfB] as number) +
						node.emfC * (v[slot + segment.emfC] as number);
				}
				// … the modal currents' own, with what decays in them …
				let decaying0 = 0;
				let decaying1 = 0;
				let decayingEnd = 0;
				if (mode.modalCount > 0) {
					ramp += node.modal0 * (v[slot + segment.b0] as number);
					before += node.modal0 * (v[slot + segment.a0] as number);
					decaying0 = node.decay0 * (v[slot + segment.d0] as number);
					decayingEnd = decaying0 * ((last ? point[decayAt0] : v[slot + segment.decay0]) as number);
					if (position !== 0) {
						scratch[0] = mode.rate0 * position;
						decayInPlace(scratch, 0);
						decaying0 *= scratch[0] as number;
					}
					if (mode.modalCount > 1) {
						ramp += node.modal1 * (v[slot + segment.b1] as number);
						before += node.modal1 * (v[slot + segment.a1] as number);
						decaying1 = node.decay1 * (v[slot + segment.d1] as number);
						decayingEnd += decaying1 * ((last ? point[decayAt1] : v[slot + segment.decay1]) as number);
						if (position !== 0) {
							scratch[0] = mode.rate1 * position;
							decayInPlace(scratch, 0);
							decaying1 *= scratch[0] as number;
						}
					}
				}
				before += ramp * (position - tau);
				let after = before + ramp * h + decayingEnd;
				before += decaying0 + decaying1;
				// … and sinusoids; where the segment ends the next one begins
				const next = last ? slot : history.offset(index + 1);
				if (circuit.rippleAmplitude !== 0) {
					let zRe = v[slot + segment.zRe] as number;
					let zIm = v[slot + segment.zIm] as number;
					if (position !== 0) {
						scratch[0] = circuit.rippleOmega * position;
						turnInPlace(scratch, 0);
						const c = scratch[0] as number;
						const q = scratch[1] as number;
						const turned = zRe * c - zIm * q;
						zIm = zRe * q + zIm * c;
						zRe = turned;
					}
					const zReEnd = (last ? point[zReAt] : v[next + segment.zRe]) as number;
					const zImEnd = (last ? point[zImAt] : v[next + segment.zIm]) as number;
					before += node.rippleRe * zIm + node.rippleIm * zRe;
					after += node.rippleRe * zImEnd + node.rippleIm * zReEnd;
				}
				if (circuit.sinusoidal) {
					scratch[0] = circuit.omega * position;
					turnInPlace(scratch, 0);
					const c = scratch[0] as number;
					const q = scratch[1] as number;
					const wRe = v[slot + segment.wRe] as number;
					const wIm = v[slot + segment.wIm] as number;
					const wReEnd = (last ? point[wReAt] : v[next + segment.wRe]) as number;
					const wImEnd = (last ? point[wImAt] : v[next + segment.wIm]) as number;
					before += node.emfRe * (wRe * q + wIm * c) + node.emfIm * (wRe * c - wIm * q);
					after += node.emfRe * wImEnd + node.emfIm * wReEnd;
				}
				value = after + (value - before) * (memo[1] as number);
				if (ringing.amplitude !== 0) this.ring(history, circuit, ringing, slot, mode, position, end);
			}
			if (last) break;
		}
		this.index = target;
		this.position = s;
		this.value = value;
	}

	/** Starts at the segment that holds the time from which on it counts; at rest at t = 0, else on the forced response. */
	private restart(history: SegmentHistory, circuit: Circuit): void {
		const v = history.values;
		const { oldest, target, point } = history;
		const from =
			(v[history.offset(target) + segment.start] as number) +
			(point[secondsAt] as number) -
			lookBackConstants * (circuit.nodeTau[this.node] as number);
		let index = target;
		while (index > oldest && (v[history.offset(index) + segment.start] as number) > from) index--;
		const slot = history.offset(index);
		this.index = index;
		this.position = 0;
		this.ringing = 0;
		this.value = 0;
		if (index === 0) return;
		if ((v[slot + segment.start] as number) > from)
			throw new Error('the segment history is too short for a sensing network');
		// near the forced response there is least to forget: the network's gain times the terminals' mean is near enough
		const node = history.mode(index).node(circuit, this.node);
		this.value = node.constant;
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
	): void {
		const v = history.values;
		const fade = this.memo[1] as number;
		const age = (v[slot + segment.start] as number) - (v[slot + segment.ringTime] as number);
		const weights = circuit.nodeWeights[this.node] as Float64Array;
		const weight =
			age + from < ringDecays / -ringing.sigmaRe
				? ringing.weight(weights, v[slot + segment.kind] as number, v[slot + segment.ringKind] as number, mode)
				: 0;
		if (weight === 0) {
			this.ringing *= fade;
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
		this.ringing = after + (this.ringing - before) * fade;
	}
}
