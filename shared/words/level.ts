/** A confidence level in print: 0.95 → "95 %". */
export function levelWords(level: number): string {
	return `${Number((level * 100).toPrecision(6))}\u00a0%`;
}
