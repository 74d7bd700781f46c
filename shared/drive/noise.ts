/**
 * Where a run gets its randomness. Every value is a function of its key alone
 * (unit, point and start were fixed when the source was made), so it stays
 * paired between the choices after their first difference.
 */
export interface NoiseSource {
	/** Standard normal deviate of a reading, never beyond ±8.3: `sector` from 0 at t = 0, `reading` from 0 at the first one after blanking. */
	normal(sector: number, reading: number): number;
	/** Uniform in [−1, 1): where in its spread the ring of an edge falls; `period` from 0, `edge` 0 turn-on, 1 turn-off. */
	ringSpread(period: number, edge: 0 | 1): number;
}

/** No noise at all: nominal drives and boards with given values. */
export const silence: NoiseSource = { normal: () => 0, ringSpread: () => 0 };
