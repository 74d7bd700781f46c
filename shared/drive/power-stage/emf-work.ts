import type { SegmentInHand } from './segment-in-hand.ts';

/**
 * Adds the segment's ∫ Σ e_k i_k ds = Σ_m ∫ ε_m y_m, ε_m = Σ_k U_km e_k, J, to
 * `stage.work`. Trapezoid: exact, from the modal equation itself (∫y' = −λ∫y +
 * ∫F and the same times s), but where λ is so small that the differences which
 * are divided by it and its square would be rounding. There, and for a sinusoidal
 * back-EMF: the two-point rule with first and second derivatives, whose error
 * h⁷f⁽⁶⁾/100800 stays below 3·10⁻⁹ of the work at the largest length that the
 * stage lets a segment have.
 */
export function addEmfWork(stage: { work: number }, hand: SegmentInHand): void {
	const { circuit, mode, segment, length: h } = hand;
	if (mode.modalCount === 0) return;
	if (circuit.sinusoidal || circuit.slowWindings) {
		stage.work += twoPointWork(hand);
		return;
	}
	const eA = segment.emfA;
	const eB = segment.emfB;
	const eC = segment.emfC;
	const sA = segment.slopeA;
	const sB = segment.slopeB;
	const sC = segment.slopeC;
	let ripple = 0;
	let rippleMoment = 0;
	if (circuit.rippleAmplitude !== 0) {
		const w = circuit.rippleOmega;
		ripple = (circuit.rippleAmplitude * (segment.zRe - hand.zReEnd)) / w;
		rippleMoment = (circuit.rippleAmplitude * ((hand.zImEnd - segment.zIm) / w - h * hand.zReEnd)) / w;
	}
	for (let m = 0; m < mode.modalCount; m++) {
		const first = m === 0;
		const level = first ? mode.uA0 * eA + mode.uB0 * eB + mode.uC0 * eC : mode.uA1 * eA + mode.uB1 * eB + mode.uC1 * eC;
		const slope = first ? mode.uA0 * sA + mode.uB0 * sB + mode.uC0 * sC : mode.uA1 * sA + mode.uB1 * sB + mode.uC1 * sC;
		const rate = first ? mode.rate0 : mode.rate1;
		const start = first ? hand.y0Start : hand.y1Start;
		const end = first ? hand.y0End : hand.y1End;
		const drive = (first ? mode.drive0 : mode.drive1) - level;
		const rippleDrive = first ? mode.rippleDrive0 : mode.rippleDrive1;
		const integral = (drive * h - 0.5 * slope * h * h + rippleDrive * ripple - (end - start)) / rate;
		stage.work += level * integral;
		if (slope !== 0) {
			const moment =
				(0.5 * drive * h * h - (slope * h * h * h) / 3 + rippleDrive * rippleMoment - h * end + integral) / rate;
			stage.work += slope * moment;
		}
	}
}

/** By values, slopes and curvatures of ε_m y_m at both ends. */
function twoPointWork(hand: SegmentInHand): number {
	const { circuit, mode, segment, length: h } = hand;
	const { omega, sinusoidal } = circuit;
	let sum = 0;
	for (let m = 0; m < mode.modalCount; m++) {
		const first = m === 0;
		const rate = first ? mode.rate0 : mode.rate1;
		const re = first ? mode.emfDriveRe0 : mode.emfDriveRe1;
		const im = first ? mode.emfDriveIm0 : mode.emfDriveIm1;
		const constant = first ? mode.drive0 : mode.drive1;
		const ripple = (first ? mode.rippleDrive0 : mode.rippleDrive1) * circuit.rippleAmplitude;
		const a = first ? mode.uA0 : mode.uA1;
		const b = first ? mode.uB0 : mode.uB1;
		const c = first ? mode.uC0 : mode.uC1;
		const level = a * segment.emfA + b * segment.emfB + c * segment.emfC;
		const slope = a * segment.slopeA + b * segment.slopeB + c * segment.slopeC;
		for (let end = 0; end < 2; end++) {
			const wRe = end === 0 ? segment.wRe : hand.wReEnd;
			const wIm = end === 0 ? segment.wIm : hand.wImEnd;
			const zRe = end === 0 ? segment.zRe : hand.zReEnd;
			const zIm = end === 0 ? segment.zIm : hand.zImEnd;
			const y = end === 0 ? (first ? hand.y0Start : hand.y1Start) : first ? hand.y0End : hand.y1End;
			const emf = sinusoidal ? -(re * wIm + im * wRe) : level + end * h * slope;
			const emfRate = sinusoidal ? -omega * (re * wRe - im * wIm) : slope;
			const emfCurve = sinusoidal ? -omega * omega * emf : 0;
			const yRate = constant + ripple * zIm - emf - rate * y;
			const yCurve = ripple * circuit.rippleOmega * zRe - emfRate - rate * yRate;
			const f = emf * y;
			const fRate = emfRate * y + emf * yRate;
			const fCurve = emfCurve * y + 2 * emfRate * yRate + emf * yCurve;
			const sign = end === 0 ? 1 : -1;
			sum += h * (f / 2 + (sign * h * fRate) / 10 + (h * h * fCurve) / 120);
		}
	}
	return sum;
}
