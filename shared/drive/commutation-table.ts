/**
 * Six-step commutation, sector kind 0…5 (sector n is kind n mod 6): kind j
 * spans 30° + 60°j … 90° + 60°j, the open phase's EMF crosses zero in its
 * middle. Textbook material; checked against check figures in the tests.
 */

/** Phase tied to the high rail, by sector kind. */
export const highPhase = [0, 0, 1, 1, 2, 2] as const;
/** Phase tied to the low rail. */
export const lowPhase = [1, 2, 2, 0, 0, 1] as const;
/** Phase left open, whose back-EMF is sensed. */
export const openPhase = [2, 1, 0, 2, 1, 0] as const;
/** Whether the open phase's EMF rises through zero. */
export const risingCrossing = [false, true, false, true, false, true] as const;
