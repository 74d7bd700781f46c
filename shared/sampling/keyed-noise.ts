import type { NoiseSource } from '../drive/noise.ts';
import { inverseNormal } from '../maths/inverse-normal.ts';
import { philox } from '../maths/philox.ts';
import { stream } from './stream.ts';

/** Set in the counter's sector word where it numbers PWM periods of the ring instead. */
const ringTag = 0x80000000;

/**
 * The study's noise: every value is a function of (seed, unit, point, start,
 * sector, reading) alone, whatever was asked for before it.
 *
 * Philox's key is 64 bits that alea derives from the seed; its counter is
 * (reading pair or PWM period, sector or ring, unit, point and start). One block
 * of four words makes two 52-bit uniforms: the normals of readings 2j and 2j + 1,
 * or the spreads of a period's two edges.
 */
export function keyedNoise(seed: string): { forRun(unit: number, point: number, start: number): NoiseSource } {
	const next = stream(seed, 'noise');
	const key0 = next.int32();
	const key1 = next.int32();
	return {
		forRun(unit, point, start) {
			if (!isWord(unit, 2 ** 32) || !isWord(point, 2 ** 16) || !isWord(start, 2 ** 16)) {
				throw new RangeError(
					`noise of unit ${unit}, point ${point}, start ${start}: whole numbers from 0, below 2^32, 2^16, 2^16`,
				);
			}
			return new RunNoise(key0, key1, unit, point * 2 ** 16 + start);
		},
	};
}

const isWord = (value: number, end: number): boolean => Number.isInteger(value) && value >= 0 && value < end;

/** Keeps the latest block of each kind, since readings and edges are asked for in order. */
class RunNoise implements NoiseSource {
	private readonly key0: number;
	private readonly key1: number;
	private readonly unit: number;
	private readonly run: number;
	private readonly words = new Uint32Array(4);
	private sector = -1;
	private pair = -1;
	private readonly ringWords = new Uint32Array(4);
	private period = -1;

	constructor(key0: number, key1: number, unit: number, run: number) {
		this.key0 = key0;
		this.key1 = key1;
		this.unit = unit;
		this.run = run;
	}

	normal(sector: number, reading: number): number {
		const pair = reading >>> 1;
		if (pair !== this.pair || sector !== this.sector) {
			philox(this.words, pair, sector, this.unit, this.run, this.key0, this.key1);
			this.pair = pair;
			this.sector = sector;
		}
		return inverseNormal(openUniform(this.words, (reading & 1) << 1));
	}

	ringSpread(period: number, edge: 0 | 1): number {
		if (period !== this.period) {
			philox(this.ringWords, period, ringTag, this.unit, this.run, this.key0, this.key1);
			this.period = period;
		}
		return 2 * openUniform(this.ringWords, edge << 1) - 1;
	}
}

/** Middle of one of 2⁵² equal cells of (0, 1), from two words: never 0 or 1, and symmetric about ½. */
function openUniform(words: Uint32Array, at: number): number {
	const high = (words[at] as number) >>> 6;
	const low = (words[at + 1] as number) >>> 6;
	return (high * 2 ** 26 + low + 0.5) * 2 ** -52;
}
