import ln from '@stdlib/math-base-special-ln';

/**
 * Quantile of the standard normal distribution: the z with Φ(z) = p, to about
 * 1 part in 10¹⁶. −∞ at 0, +∞ at 1, NaN outside.
 *
 * Source: M. J. Wichura, "Algorithm AS 241: the percentage points of the normal
 * distribution", Applied Statistics 37 (1988) 477–484, routine PPND16.
 */
export function inverseNormal(p: number): number {
	const q = p - 0.5;
	if (q >= -0.425 && q <= 0.425) {
		const r = 0.180625 - q * q;
		return (
			(q *
				polynomial(
					r,
					3.3871328727963665,
					133.14166789178438,
					1971.5909503065513,
					13731.69376550946,
					45921.95393154987,
					67265.7709270087,
					33430.57558358813,
					2509.0809287301227,
				)) /
			polynomial(
				r,
				1,
				42.31333070160091,
				687.1870074920579,
				5394.196021424751,
				21213.794301586597,
				39307.89580009271,
				28729.085735721943,
				5226.495278852854,
			)
		);
	}
	const outside = q < 0 ? p : 1 - p;
	if (!(outside > 0)) return outside === 0 ? (q < 0 ? -Infinity : Infinity) : Number.NaN;
	const distance = Math.sqrt(-ln(outside));
	const z = distance <= 5 ? middleTail(distance - 1.6) : farTail(distance - 5);
	return q < 0 ? -z : z;
}

/** Tail probability from 0.075 down to e⁻²⁵, r = √(−ln p) − 1.6. */
function middleTail(r: number): number {
	return (
		polynomial(
			r,
			1.4234371107496835,
			4.630337846156546,
			5.769497221460691,
			3.6478483247632045,
			1.2704582524523684,
			0.2417807251774506,
			0.022723844989269184,
			0.0007745450142783414,
		) /
		polynomial(
			r,
			1,
			2.053191626637759,
			1.6763848301838038,
			0.6897673349851,
			0.14810397642748008,
			0.015198666563616457,
			0.0005475938084995345,
			1.0507500716444169e-9,
		)
	);
}

/** Tail probability below e⁻²⁵, r = √(−ln p) − 5. */
function farTail(r: number): number {
	return (
		polynomial(
			r,
			6.657904643501103,
			5.463784911164114,
			1.7848265399172913,
			0.29656057182850487,
			0.026532189526576124,
			0.0012426609473880784,
			2.7115555687434876e-5,
			2.0103343992922881e-7,
		) /
		polynomial(
			r,
			1,
			0.599832206555888,
			0.1369298809227358,
			0.014875361290850615,
			0.0007868691311456133,
			1.8463183175100548e-5,
			1.421511758316446e-7,
			2.0442631033899397e-15,
		)
	);
}

/** c0 + c1 r + … + c7 r⁷ by Horner's rule. */
function polynomial(
	r: number,
	c0: number,
	c1: number,
	c2: number,
	c3: number,
	c4: number,
	c5: number,
	c6: number,
	c7: number,
): number {
	return ((((((c7 * r + c6) * r + c5) * r + c4) * r + c3) * r + c2) * r + c1) * r + c0;
}
