import { object, text } from '../../../../shared/results/shape.ts';
import { readJson } from '../../../../shared/scenario/read-json.ts';
import { routeLink, type ViewName } from '../route.ts';

/** What a link carries: a scenario file's text and what it was run with. */
export interface SharedWork {
	readonly scenario: string;
	readonly units: string;
	readonly seed: string;
}

/** Under this name in the address. */
export const linkDetail = 'work';
/** Signs of a link, and of what it unpacks to: more than any scenario needs. */
const longestLink = 100_000;
const longestText = 300 * 1024;

const shape = object<SharedWork>({ scenario: text(256 * 1024), units: text(40), seed: text(400) });

/** The part of an address that opens this work in a view. Nothing is sent anywhere: what follows # stays in the browser. */
export async function linkTo(work: SharedWork, view: ViewName = 'which-choice'): Promise<string> {
	const compact = { ...work, scenario: compactJson(work.scenario) };
	const bytes = new TextEncoder().encode(JSON.stringify(compact));
	const packed = new Blob([bytes]).stream().pipeThrough(new CompressionStream('deflate-raw'));
	return routeLink(view, { [linkDetail]: toBase64Url(new Uint8Array(await new Response(packed).arrayBuffer())) });
}

/** What a link carries, or in words why it cannot be opened. Never throws. */
export async function readLink(code: string): Promise<SharedWork | { readonly problem: string }> {
	if (code.length > longestLink)
		return {
			problem: `it is too long: ${Math.ceil(code.length / 1024)} kB, at most ${longestLink / 1000} kB are read`,
		};
	if (!/^[\w-]+$/.test(code))
		return { problem: 'it holds characters that no link of this page has: it may have been cut or changed on its way' };
	let unpacked: string;
	try {
		unpacked = await inflated(fromBase64Url(code));
	} catch (error) {
		return error instanceof TooLong
			? { problem: `it unpacks to more than ${longestText / 1024} kB, more than any scenario has` }
			: { problem: 'it cannot be unpacked: it may have been cut or changed on its way' };
	}
	const { value } = readJson(unpacked, { longest: longestText });
	if (value === undefined || shape(value, 'work') !== null)
		return { problem: 'it does not hold a scenario with a number of drives and a seed' };
	return value as unknown as SharedWork;
}

class TooLong extends Error {}

/** Unpacks step by step, so that little sent cannot become much kept. */
async function inflated(packed: Uint8Array<ArrayBuffer>): Promise<string> {
	const reader = new Blob([packed]).stream().pipeThrough(new DecompressionStream('deflate-raw')).getReader();
	const parts: Uint8Array<ArrayBuffer>[] = [];
	let length = 0;
	for (;;) {
		const { done, value } = await reader.read();
		if (done) break;
		length += value.byteLength;
		if (length > longestText) {
			await reader.cancel();
			throw new TooLong();
		}
		parts.push(value);
	}
	return new TextDecoder('utf-8', { fatal: true }).decode(await new Blob(parts).arrayBuffer());
}

/** A scenario without its spaces, as it stands where it is not JSON. */
function compactJson(scenario: string): string {
	const { value, problems } = readJson(scenario);
	return value === undefined || problems.length > 0 ? scenario : JSON.stringify(value);
}

/** RFC 4648, section 5, without padding. */
function toBase64Url(bytes: Uint8Array): string {
	let characters = '';
	for (const byte of bytes) characters += String.fromCharCode(byte);
	return btoa(characters).replaceAll('+', '-').replaceAll('/', '_').replace(/=+$/, '');
}

const fromBase64Url = (code: string): Uint8Array<ArrayBuffer> =>
	Uint8Array.from(atob(code.replaceAll('-', '+').replaceAll('_', '/')), (sign) => sign.charCodeAt(0));
