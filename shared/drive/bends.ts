import type { Circuit } from './circuit.ts';
import type { ConductionMode } from './conduction-mode.ts';

/*
 * How far an open terminal must be from a rail at the end of a segment so as not to have been beyond it in between.
 * With |m″|·length² ≤ 8B a margin m leaves its chord by at most 4B·x(1 − x), x from 0 to 1: m(0) ≥ 0 and m(1) ≥ 4B
 * keep it positive. Here are 4B, by what bends the margin.
 */

/** Bus ripple and a sinusoidal back-EMF, over `length` (s), V. */
export function forcedBend(circuit: Circuit, mode: ConductionMode, length: number): number {
	const ripple = circuit.rippleAmplitude * (1 + 2 * Math.abs(mode.neutralRipple));
	const bend = squareHalf(circuit.rippleOmega * length) * ripple;
	if (!circuit.sinusoidal) return bend;
	const [a = 0, b = 0, c = 0] = circuit.emfPeak;
	return bend + 2 * squareHalf(circuit.omega * length) * Math.max(a, b, c);
}

/** The current that two phases share, over `length` (s), V per unit of its D (segment.ts). */
export const modalBend = (mode: ConductionMode, length: number): number =>
	squareHalf(mode.rate0 * length) * (Math.abs(mode.neutral0) + Math.abs(mode.lowRail0));

/** Half a square: of a turn or a decay over a segment it is four times B over the amplitude. */
export const squareHalf = (turn: number): number => 0.5 * turn * turn;
