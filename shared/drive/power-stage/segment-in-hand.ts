import { decayInPlace } from '../../maths/decay.ts';
import { realZero } from '../../maths/real-zero.ts';
import { turnInPlace } from '../../maths/turn.ts';
import type { Circuit } from '../circuit.ts';
import type { ConductionMode } from '../conduction-mode.ts';
import type { Segment } from '../segment.ts';

/** Numbers on their way through decayInPlace and turnInPlace. */
const cells = new Float64Array(2);

/**
 * The segment that the power stage is about to take, with what its closed forms
 * give at both ends and at any point in between. Numbers travel in fields: as
 * arguments or results of a call that the compiler does not inline, each would
 * be put on the heap.
 */
export class SegmentInHand {
	circuit!: Circuit;
	segment!: Segment;
	mode!: ConductionMode;
	/** s. */
	length = realZero;
	/** Modal currents at the start. */
	y0Start = realZero;
	y1Start = realZero;
	/** Phasors of bus ripple and electrical angle, and modal currents, at the end. */
	zReEnd = realZero;
	zImEnd = realZero;
	wReEnd = realZero;
	wImEnd = realZero;
	y0End = realZero;
	y1End = realZero;
	/** The point last gone to: time into the segment (s), phasors, modal currents. */
	s = realZero;
	zRe = realZero;
	zIm = realZero;
	wRe = realZero;
	wIm = realZero;
	y0 = realZero;
	y1 = realZero;
	/** e^{−λ_m s} of the point last worked out, of as many modal currents as there are. */
	private decay0 = realZero;
	private decay1 = realZero;

	/** Works out the end, `length` seconds from the start. */
	workOutEnd(): void {
		const { segment } = this;
		segment.length = this.length;
		this.s = this.length;
		this.workOutPoint();
		segment.decay0 = this.decay0;
		segment.decay1 = this.decay1;
		this.zReEnd = this.zRe;
		this.zImEnd = this.zIm;
		this.wReEnd = this.wRe;
		this.wImEnd = this.wIm;
		this.y0End = this.y0;
		this.y1End = this.y1;
	}

	goToStart(): void {
		const { segment } = this;
		this.s = 0;
		this.zRe = segment.zRe;
		this.zIm = segment.zIm;
		this.wRe = segment.wRe;
		this.wIm = segment.wIm;
		this.y0 = this.y0Start;
		this.y1 = this.y1Start;
	}

	goToEnd(): void {
		this.s = this.length;
		this.zRe = this.zReEnd;
		this.zIm = this.zImEnd;
		this.wRe = this.wReEnd;
		this.wIm = this.wImEnd;
		this.y0 = this.y0End;
		this.y1 = this.y1End;
	}

	/** Goes to the point `s` seconds in. */
	goTo(s: number): void {
		this.s = s;
		this.workOutPoint();
	}

	/** The rest of the point `s` seconds in. */
	private workOutPoint(): void {
		const { circuit, mode, segment, s } = this;
		this.turnPhasors();
		const { zRe, zIm, wRe, wIm } = this;
		let y0 = 0;
		let y1 = 0;
		if (mode.modalCount > 0) {
			cells[0] = mode.rate0 * s;
			decayInPlace(cells, 0);
			this.decay0 = cells[0] as number;
			y0 = segment.a0 + segment.b0 * s + mode.rippleRe0 * zIm + mode.rippleIm0 * zRe + segment.d0 * this.decay0;
			if (mode.modalCount > 1) {
				cells[0] = mode.rate1 * s;
				decayInPlace(cells, 0);
				this.decay1 = cells[0] as number;
				y1 = segment.a1 + segment.b1 * s + mode.rippleRe1 * zIm + mode.rippleIm1 * zRe + segment.d1 * this.decay1;
			}
			if (circuit.sinusoidal) {
				y0 += mode.emfRe0 * wIm + mode.emfIm0 * wRe;
				y1 += mode.emfRe1 * wIm + mode.emfIm1 * wRe;
			}
		}
		this.y0 = y0;
		this.y1 = y1;
	}

	/** Back-EMF of phase k at the end, V. */
	emfAtEnd(k: number): number {
		const { circuit } = this;
		if (circuit.sinusoidal) {
			return (circuit.emfRe[k] as number) * this.wImEnd + (circuit.emfIm[k] as number) * this.wReEnd;
		}
		return this.segment.emfAt(k, this.length);
	}

	/** Phasors of ripple and electrical angle `s` seconds in. */
	private turnPhasors(): void {
		const { circuit, segment, s } = this;
		if (circuit.rippleAmplitude !== 0) {
			cells[0] = circuit.rippleOmega * s;
			turnInPlace(cells, 0);
			const c = cells[0] as number;
			const q = cells[1] as number;
			this.zRe = segment.zRe * c - segment.zIm * q;
			this.zIm = segment.zRe * q + segment.zIm * c;
		}
		if (circuit.sinusoidal) {
			cells[0] = circuit.omega * s;
			turnInPlace(cells, 0);
			const c = cells[0] as number;
			const q = cells[1] as number;
			this.wRe = segment.wRe * c - segment.wIm * q;
			this.wIm = segment.wRe * q + segment.wIm * c;
		}
	}
}
