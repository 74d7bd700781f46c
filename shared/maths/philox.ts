/**
 * Philox4x32-10: four random 32-bit words from a 128-bit counter and a 64-bit
 * key. The words depend on counter and key alone, so any of them can be had in
 * any order; nothing is kept between calls and nothing allocated.
 *
 * Source: J. K. Salmon et al., "Parallel random numbers: as easy as 1, 2, 3",
 * SC11 (2011).
 *
 * @param out receives the four words
 */
export function philox(
	out: Uint32Array,
	counter0: number,
	counter1: number,
	counter2: number,
	counter3: number,
	key0: number,
	key1: number,
): void {
	let c0 = counter0 | 0;
	let c1 = counter1 | 0;
	let c2 = counter2 | 0;
	let c3 = counter3 | 0;
	let k0 = key0 | 0;
	let k1 = key1 | 0;
	for (let round = 0; round < 10; round++) {
		// 32 × 32 → 64 bits in 16-bit halves, once for each multiplier: 0xD2511F53 on c0, 0xCD9E8D57 on c2
		const low0 = c0 & 0xffff;
		const high0 = c0 >>> 16;
		const middle0 = Math.imul(0xd251, low0) + (Math.imul(0x1f53, low0) >>> 16);
		const upper0 = Math.imul(0x1f53, high0) + (middle0 & 0xffff);
		const product0 = Math.imul(0xd251, high0) + (middle0 >>> 16) + (upper0 >>> 16);

		const low2 = c2 & 0xffff;
		const high2 = c2 >>> 16;
		const middle2 = Math.imul(0xcd9e, low2) + (Math.imul(0x8d57, low2) >>> 16);
		const upper2 = Math.imul(0x8d57, high2) + (middle2 & 0xffff);
		const product2 = Math.imul(0xcd9e, high2) + (middle2 >>> 16) + (upper2 >>> 16);

		const next0 = product2 ^ c1 ^ k0;
		const next2 = product0 ^ c3 ^ k1;
		c1 = Math.imul(0xcd9e8d57, c2);
		c3 = Math.imul(0xd2511f53, c0);
		c0 = next0;
		c2 = next2;
		// Weyl sequence of the key: golden ratio and √3 − 1
		k0 = (k0 + 0x9e3779b9) | 0;
		k1 = (k1 + 0xbb67ae85) | 0;
	}
	out[0] = c0;
	out[1] = c1;
	out[2] = c2;
	out[3] = c3;
}
