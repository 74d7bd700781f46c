/**
 * Where the numbers of one segment stand. A segment is a stretch of time in
 * one conduction mode with every input smooth; with s counted from its start
 *
 *   y_m(s) = A_m + B_m s + Im(gain_m·z(s)) + Im(emfGain_m·w(s)) + D_m e^{−λ_m s}
 *   e_k(s) = emf_k + slope_k s      (trapezoidal back-EMF)
 *   z(s) = z e^{jΩs},  w(s) = w e^{jωs}
 */
/** When it begins and how long it lasts, s. */
export const start = 0;
export const length = 1;
/** Modal currents: constant, slope and decaying part of each. */
export const a0 = 2;
export const b0 = 3;
export const d0 = 4;
export const a1 = 5;
export const b1 = 6;
export const d1 = 7;
/** Trapezoidal back-EMF at the start, V, and its slope, V/s. */
export const emfA = 8;
export const emfB = 9;
export const emfC = 10;
export const slopeA = 11;
export const slopeB = 12;
export const slopeC = 13;
/** Phasor of the bus ripple at the start; phasor of the electrical angle (sinusoidal back-EMF). */
export const zRe = 14;
export const zIm = 15;
export const wRe = 16;
export const wIm = 17;
/** e^{−λ_m·length} */
export const decay0 = 18;
export const decay1 = 19;
/** Of the latest PWM edge, whose ringing may last: its time (s), period, 0 turn-on or 1 turn-off, and the sector kind then. */
export const ringTime = 20;
export const ringPeriod = 21;
export const ringEdge = 22;
export const ringKind = 23;
/** Sector kind in force. */
export const kind = 24;
/** Numbers per segment. */
export const stride = 25;
