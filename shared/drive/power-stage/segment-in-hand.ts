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

	/** Works out the end, `length` seconds from the start. */
	workOutEnd(): void {
		const { circuit, mode, segment, length: h } = this;
		segment.length = h;
		this.s = h;
		this.turnPhasors();
		this.zReEnd = this.zRe;
		this.zImEnd = this.zIm;
		this.wReEnd = this.wRe;
		this.wImEnd = this.wIm;
		this.y0End = this.y1End = 0;
		if (mode.modalCount === 0) return;
		cells[0] = mode.rate0 * h;
		decayInPlace(cells, 0);
		const decay0 = cells[0] as number;
		segment.decay0 = decay0;
		this.y0End =
			segment.a0 + segment.b0 * h + mode.rippleRe0 * this.zImEnd + mode.rippleIm0 * this.zReEnd + segment.d0 * decay0;
		if (mode.modalCount > 1) {
			cells[0] = mode.rate1 * h;
			decayInPlace(cells, 0);
			const decay1 = cells[0] as number;
			segment.decay1 = decay1;
			this.y1End =
				segment.a1 + segment.b1 * h + mode.rippleRe1 * this.zImEnd + mode.rippleIm1 * this.zReEnd + segment.d1 * decay1;
		}
		if (circuit.sinusoidal) {
			this.y0End += mode.emfRe0 * this.wImEnd + mode.emfIm0 * this.wReEnd;
			this.y1End += mode.emfRe1 * this.wImEnd + mode.emfIm1 * this.wReEnd;
		}
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
		const { circuit, mode, segment } = this;
		this.s = s;
		this.turnPhasors();
		const { zRe, zIm, wRe, wIm } = this;
		let y0 = 0;
		let y1 = 0;
		if (mode.modalCount > 0) {
			cells[0] = mode.rate0 * s;
			decayInPlace(cells, 0);
			y0 =
				segment.a0 + segment.b0 * s + mode.rippleRe0 * zIm + mode.rippleIm0 * zRe + segment.d0 * (cells[0] as number);
			if (mode.modalCount > 1) {
				cells[0] = mode.rate1 * s;
				decayInPlace(cells, 0);
				y1 =
					segment.a1 + segment.b1 * s + mode.rippleRe1 * zIm + mode.rippleIm1 * zRe + segment.d1 * (cells[0] as number);
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
