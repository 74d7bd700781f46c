import { decayInPlace } from '../maths/decay.ts';
import { realZero } from '../maths/real-zero.ts';
import { turnInPlace } from '../maths/turn.ts';
import type { Circuit } from './circuit.ts';
import type { ConductionMode } from './conduction-mode.ts';
import type { Segment } from './segment.ts';

/** Numbers on their way through decayInPlace and turnInPlace. */
const cells = new Float64Array(2);

/** What is needed of the history. */
interface Trajectory {
	at(index: number): Segment;
}

/** A point of the trajectory at which sensing nodes are read, with all that each of them needs there. */
export class ReadingPoint {
	/** Its segment in the history, and the time in that, s. */
	index = 0;
	s = realZero;
	/** Phasors of bus ripple and electrical angle. */
	zRe = realZero;
	zIm = realZero;
	wRe = realZero;
	wIm = realZero;
	/** e^{−λ_m s} */
	decay0 = realZero;
	decay1 = realZero;

	private readonly history: Trajectory;
	/** For which mode and time in it the decays and the turns of both phasors were worked out last. */
	private workedOutAt = realZero;
	private workedOutFor: ConductionMode | undefined;
	private rippleRe = realZero;
	private rippleIm = realZero;
	private rotorRe = realZero;
	private rotorIm = realZero;

	constructor(history: Trajectory) {
		this.history = history;
	}

	/** The drive has changed, or the history is another's. */
	reset(): void {
		this.workedOutFor = undefined;
	}

	/** Goes `s` seconds into segment `index`. */
	goTo(circuit: Circuit, index: number, s: number): void {
		this.index = index;
		this.s = s;
		this.workOut(circuit);
	}

	/** The rest: apart, so that `goTo` is inlined and `s` never put on the heap. */
	private workOut(circuit: Circuit): void {
		const { s } = this;
		const segment = this.history.at(this.index);
		const { mode } = segment;
		// period after period is read at the same place
		const same = s === this.workedOutAt && mode === this.workedOutFor;
		if (!same) {
			this.workedOutAt = s;
			this.workedOutFor = mode;
			cells[0] = mode.rate0 * s;
			decayInPlace(cells, 0);
			this.decay0 = cells[0] as number;
			this.decay1 = 0;
			if (mode.modalCount > 1) {
				cells[0] = mode.rate1 * s;
				decayInPlace(cells, 0);
				this.decay1 = cells[0] as number;
			}
		}
		if (circuit.rippleAmplitude !== 0) {
			if (!same) {
				cells[0] = circuit.rippleOmega * s;
				turnInPlace(cells, 0);
				this.rippleRe = cells[0] as number;
				this.rippleIm = cells[1] as number;
			}
			const { zRe, zIm } = segment;
			this.zRe = zRe * this.rippleRe - zIm * this.rippleIm;
			this.zIm = zRe * this.rippleIm + zIm * this.rippleRe;
		}
		if (circuit.sinusoidal) {
			if (!same) {
				cells[0] = circuit.omega * s;
				turnInPlace(cells, 0);
				this.rotorRe = cells[0] as number;
				this.rotorIm = cells[1] as number;
			}
			const { wRe, wIm } = segment;
			this.wRe = wRe * this.rotorRe - wIm * this.rotorIm;
			this.wIm = wRe * this.rotorIm + wIm * this.rotorRe;
		}
	}
}
