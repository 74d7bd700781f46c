import type { Circuit } from '../circuit.ts';
import { starNode } from '../conduction-mode.ts';
import type { Drive } from '../drive.ts';
import type { Ringing } from '../ringing.ts';
import type { SegmentHistory } from '../segment-history.ts';
import { NetworkNode } from './network-node.ts';
import type { Threshold } from './threshold.ts';

/**
 * Virtual neutral: three star resistors from the terminals to a filtered node,
 * τ_n v_N' = Σ v_k/(R_k Y) − v_N, Y = Σ 1/R_k + 1/R_g, τ_n = C_n/Y.
 */
export class VirtualNeutral implements Threshold {
	readonly node = starNode;
	private readonly network = new NetworkNode(starNode);

	get value(): number {
		return this.network.value;
	}

	get ringing(): number {
		return this.network.ringing;
	}

	reset(_drive: Drive, _circuit: Circuit): void {
		this.network.reset();
	}

	rewind(): void {
		this.network.reset();
	}

	busGain(): number {
		return 0;
	}

	read(history: SegmentHistory, circuit: Circuit, ringing: Ringing): void {
		this.network.read(history, circuit, ringing);
	}
}
