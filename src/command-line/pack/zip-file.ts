import { createHash } from 'node:crypto';
import { inflateRawSync } from 'node:zlib';
import { type Zippable, zipSync } from 'fflate';

/** One file of a zip. Layout: .ZIP File Format Specification (APPNOTE 6.3), 4.3.7 local header, 4.3.12 directory, 4.3.16 its end. */
export interface ZipEntry {
	readonly path: string;
	readonly bytes: Uint8Array;
}

/** As it is read: what cannot be unpacked has no bytes. */
export interface FoundEntry {
	readonly path: string;
	readonly bytes: Uint8Array | null;
}

const digestWords = 'SHA-256 of all bytes before this one: ';
const digestLength = 64;
/** Signature, counts and places, without the comment. */
const endLength = 22;
const [localSignature, directorySignature, endSignature] = [0x04034b50, 0x02014b50, 0x06054b50];
/** Bytes one file may unpack to. */
const largestFile = 1e9;

/**
 * A zip whose bytes depend on its entries alone, with a digest of the whole as
 * its comment: what the digests of the files do not cover (headers, unused bits
 * of the compressed data) is covered by that one.
 */
export function writeZip(entries: readonly ZipEntry[]): Uint8Array {
	const files: Zippable = Object.fromEntries(
		// the library writes local time; the earliest that a zip can state, everywhere
		entries.map(({ path, bytes }) => [path, [bytes, { level: 9, mtime: new Date(1980, 0, 1), os: 3 }]]),
	);
	const zip = zipSync(files);
	const comment = digestWords.length + digestLength;
	const whole = new Uint8Array(zip.length + comment);
	whole.set(zip);
	new DataView(whole.buffer).setUint16(zip.length - 2, comment, true);
	whole.set(Buffer.from(digestWords, 'latin1'), zip.length);
	whole.set(Buffer.from(wholeDigest(whole), 'latin1'), whole.length - digestLength);
	return whole;
}

/** Whether not a byte differs from what was written. */
export const isWhole = (zip: Uint8Array): boolean =>
	Buffer.from(zip.subarray(-digestLength)).toString('latin1') === wholeDigest(zip);

const wholeDigest = (zip: Uint8Array): string =>
	createHash('sha256').update(zip.subarray(0, -digestLength)).digest('hex');

/** The entries as the directory at the end lists them; none where it cannot be read. */
export function entriesOfDirectory(zip: Uint8Array): FoundEntry[] {
	const view = viewOf(zip);
	const end = zip.length - endLength - digestWords.length - digestLength;
	if (end < 0 || view.getUint32(end, true) !== endSignature) return [];
	const entries: FoundEntry[] = [];
	let at = view.getUint32(end + 16, true);
	while (at + 46 <= end && view.getUint32(at, true) === directorySignature) {
		const [pathLength, rest] = [
			view.getUint16(at + 28, true),
			view.getUint16(at + 30, true) + view.getUint16(at + 32, true),
		];
		const header = view.getUint32(at + 42, true);
		const data =
			header + 30 + (header + 30 <= end ? view.getUint16(header + 26, true) + view.getUint16(header + 28, true) : 0);
		entries.push({
			path: textOf(zip.subarray(at + 46, at + 46 + pathLength)),
			bytes: unpack(zip, data, {
				method: view.getUint16(at + 10, true),
				packed: view.getUint32(at + 20, true),
				size: view.getUint32(at + 24, true),
			}),
		});
		at += 46 + pathLength + rest;
	}
	return entries;
}

/** The entries as they lie one after another, whatever the directory says. */
export function entriesInOrder(zip: Uint8Array): FoundEntry[] {
	const entries: FoundEntry[] = [];
	for (const { path, data, method, packed, size } of localHeaders(zip)) {
		entries.push({ path, bytes: unpack(zip, data, { method, packed, size }) });
	}
	return entries;
}

/** Whose byte lies at a place of a zip that is whole: a file's (its header, contents or entry in the directory), or null for the zip's end. */
export function ownerOf(zip: Uint8Array, place: number): string | null {
	const view = viewOf(zip);
	let at = 0;
	for (const { path, data, packed } of localHeaders(zip)) {
		at = data + packed;
		if (place < at) return path;
	}
	while (view.getUint32(at, true) === directorySignature) {
		const length = 46 + view.getUint16(at + 28, true) + view.getUint16(at + 30, true) + view.getUint16(at + 32, true);
		if (place < at + length) return textOf(zip.subarray(at + 46, at + 46 + view.getUint16(at + 28, true)));
		at += length;
	}
	return null;
}

function* localHeaders(zip: Uint8Array) {
	const view = viewOf(zip);
	let at = 0;
	while (at + 30 <= zip.length && view.getUint32(at, true) === localSignature) {
		const pathEnd = at + 30 + view.getUint16(at + 26, true);
		const header = {
			path: textOf(zip.subarray(at + 30, pathEnd)),
			data: pathEnd + view.getUint16(at + 28, true),
			method: view.getUint16(at + 8, true),
			packed: view.getUint32(at + 18, true),
			size: view.getUint32(at + 22, true),
		};
		yield header;
		at = header.data + header.packed;
	}
}

/** Stored or deflated bytes; null where they are neither, or damaged. */
function unpack(
	zip: Uint8Array,
	at: number,
	{ method, packed, size }: { readonly method: number; readonly packed: number; readonly size: number },
): Uint8Array | null {
	if (at + packed > zip.length || size > largestFile) return null;
	const data = zip.subarray(at, at + packed);
	if (method === 0) return packed === size ? data : null;
	if (method !== 8) return null;
	try {
		const bytes = inflateRawSync(data, { maxOutputLength: Math.max(1, size) });
		return bytes.length === size ? bytes : null;
	} catch {
		return null;
	}
}

const viewOf = ({ buffer, byteOffset, byteLength }: Uint8Array): DataView =>
	new DataView(buffer, byteOffset, byteLength);

const textOf = (bytes: Uint8Array): string => Buffer.from(bytes).toString('utf8');
