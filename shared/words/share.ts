/** Unbreakable, so that no figure is torn from its unit at a line's end. */
const space = '\u00a0';

/**
 * A share near 0 or 1 as per cent, with two digits of what is missing: 0.9954 →
 * "99.54 %", 0.99999 → "99.9990 %"; one decimal in between. `down` and `up` round
 * a limit so that it claims no more than was shown.
 */
export function shareWords(share: number, rounding: 'near' | 'down' | 'up' = 'near'): string {
	if (!Number.isFinite(share)) return 'unknown';
	if (share === 0 || share === 1) return `${share * 100}${space}%`;
	const hundred = share * 100;
	const small = Math.min(hundred, 100 - hundred);
	let decimals = 1;
	let unit = 10;
	while (small * unit < 9.5 && decimals < 9) {
		decimals += 1;
		unit *= 10;
	}
	const scaled = hundred * unit;
	const whole = rounding === 'down' ? Math.floor(scaled) : rounding === 'up' ? Math.ceil(scaled) : Math.round(scaled);
	return `${(whole / unit).toFixed(decimals)}${space}%`;
}
