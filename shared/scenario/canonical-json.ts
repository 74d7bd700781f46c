/**
 * One text for one value: names sorted by code unit, no spaces, absent members
 * left out (the order of RFC 8785). For digests, not for reading.
 */
export function canonicalJson(value: unknown): string {
	if (typeof value === 'number' && !Number.isFinite(value)) throw new RangeError(`${value} has no JSON form`);
	if (typeof value !== 'object' || value === null) return JSON.stringify(value);
	if (Array.isArray(value)) return `[${value.map(canonicalJson).join(',')}]`;
	const members = Object.entries(value)
		.filter(([, member]) => member !== undefined)
		.sort(([a], [b]) => (a < b ? -1 : 1))
		.map(([name, member]) => `${JSON.stringify(name)}:${canonicalJson(member)}`);
	return `{${members.join(',')}}`;
}
