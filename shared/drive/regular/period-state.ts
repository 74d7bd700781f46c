// Places in the array that carries regular periods from segment to segment: as arguments or results of calls that the
// compiler does not inline, each number would be put on the heap.

// State: currents of + − and open phase, A; phasors of bus ripple and electrical angle; x (lane-table.ts), s; work done, J.
export const atHigh = 0;
export const atLow = 1;
export const atOpen = 2;
export const atZRe = 3;
export const atZIm = 4;
export const atWRe = 5;
export const atWIm = 6;
export const atX = 7;
export const atWork = 8;

// Length of the part and what is left of it, s; phasors at its end.
export const atPart = 9;
export const atRest = 10;
export const atZRePart = 11;
export const atZImPart = 12;
export const atWRePart = 13;
export const atWImPart = 14;

// Constants: ripple amplitude, V; angular frequency of ripple, its inverse, and amplitude over it; angular frequency of the electrical angle where the back-EMF is sinusoidal (else 0), rad/s; diode drop and
// that above the bus without ripple, V; when x was 0, s.
export const atAmplitude = 15;
export const atOmega = 16;
export const atInverseOmega = 17;
export const atRippleTime = 18;
export const atRotor = 19;
export const atDrop = 20;
export const atTop = 21;
export const atZero = 22;

// Segment at hand: length, s; modal currents at its start, A and D of theirs (segment.ts), e^{−λ·length}; modal currents and phasors at its end.
export const atSpan = 23;
export const atY0 = 24;
export const atY1 = 25;
export const atA0 = 26;
export const atA1 = 27;
export const atD0 = 28;
export const atD1 = 29;
export const atDecay0 = 30;
export const atDecay1 = 31;
export const atY0End = 32;
export const atY1End = 33;
export const atZReEnd = 34;
export const atZImEnd = 35;
export const atWReEnd = 36;
export const atWImEnd = 37;

export const places = 38;
