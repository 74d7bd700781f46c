/** Units beyond which no further number is proposed. */
const reach = 1e8;

/**
 * About how many more units than `units` would decide a verdict, to 1 % of
 * their total: doubled until they do, then halved in on.
 *
 * @param decides whether that many units in all would, monotonic in their number
 * @returns at least 1; null where no number within reach would
 */
export function unitsNeeded(units: number, decides: (total: number) => boolean): number | null {
	let high = Math.max(1, units);
	while (!decides(high)) {
		if (high > reach) return null;
		high *= 2;
	}
	let low = Math.floor(high / 2);
	while (high - low > Math.max(1, high / 100)) {
		const middle = Math.floor((low + high) / 2);
		if (decides(middle)) high = middle;
		else low = middle;
	}
	return Math.max(1, high - units);
}
