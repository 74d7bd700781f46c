import { canonicalJson } from './canonical-json.ts';
import type { Scenario } from './scenario.ts';

/** SHA-256 (FIPS 180-4) of bytes, in lower-case hexadecimal. Browsers offer it to pages from https and from loopback. */
export async function sha256(bytes: Uint8Array<ArrayBuffer>): Promise<string> {
	const digest = await crypto.subtle.digest('SHA-256', bytes);
	return Array.from(new Uint8Array(digest), (byte) => byte.toString(16).padStart(2, '0')).join('');
}

/** One digest over several, in their order. */
export const digestOfAll = (digests: readonly string[]): Promise<string> =>
	sha256(new TextEncoder().encode(digests.join('\n')));

/** Equal for two scenarios exactly when they resolve to the same values, tolerances and points. */
export function scenarioDigest(scenario: Scenario): Promise<string> {
	return sha256(new TextEncoder().encode(canonicalJson(scenario)));
}
