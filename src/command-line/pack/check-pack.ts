import type { Problem } from '../../../shared/scenario/scenario.ts';
import { type Manifest, manifestPath, packedFile, readManifest } from './manifest.ts';
import {
	entriesInOrder,
	entriesOfDirectory,
	type FoundEntry,
	isWhole,
	ownerOf,
	writeZip,
	type ZipEntry,
} from './zip-file.ts';

export interface CheckedPack {
	readonly manifest: Manifest;
	/** Every file but the manifest, by path. */
	readonly files: ReadonlyMap<string, Uint8Array>;
}

/** What stands for a file's name where the damage lies in none of them. */
export const zipItself = '(the zip itself)';

/**
 * Holds a pack against its manifest, and every byte of it against the digest of
 * the whole. Each problem names the file it lies in.
 */
export function checkPack(zip: Uint8Array): CheckedPack | { readonly problems: readonly Problem[] } {
	let held = holdAgainst(entriesOfDirectory(zip));
	if ('problems' in held) {
		// one of the two ways still finds what the other one loses to a damaged header
		const other = holdAgainst(entriesInOrder(zip));
		if (!('problems' in other) || other.problems.length < held.problems.length) held = other;
	}
	if ('problems' in held) return held;
	return isWhole(zip) ? held : { problems: [strayByte(zip, held.entries)] };
}

type Held = { readonly problems: readonly Problem[] } | (CheckedPack & { readonly entries: readonly ZipEntry[] });

function holdAgainst(entries: readonly FoundEntry[]): Held {
	const files = new Map(entries.map(({ path, bytes }) => [path, bytes]));
	if (entries.length === 0) {
		return { problems: [{ path: zipItself, value: '', message: 'is not a pack, or its directory is damaged' }] };
	}
	const manifestBytes = files.get(manifestPath);
	if (!manifestBytes) {
		const message =
			manifestBytes === null ? 'is damaged: it cannot be unpacked' : 'is missing: this is not a pack, or it is damaged';
		return { problems: [{ path: manifestPath, value: '', message }] };
	}
	const reading = readManifest(manifestBytes);
	if ('problem' in reading) return { problems: [reading.problem] };
	const { manifest } = reading;
	files.delete(manifestPath);
	const problems: Problem[] = [];
	const good = new Map<string, Uint8Array>();
	for (const { path, bytes: size, sha256 } of manifest.files) {
		const bytes = files.get(path);
		files.delete(path);
		const report = (message: string): void => void problems.push({ path, value: '', message });
		if (bytes === undefined) report('is missing');
		else if (bytes === null) report('is damaged: it cannot be unpacked');
		else if (bytes.length !== size || packedFile({ path, bytes }).sha256 !== sha256) {
			report('is damaged: its SHA-256 is not the one in the manifest');
		} else good.set(path, bytes);
	}
	for (const path of files.keys()) problems.push({ path, value: '', message: 'is not in the manifest' });
	if (problems.length > 0) return { problems };
	const others = [...good].map(([path, bytes]) => ({ path, bytes }));
	return { manifest, files: good, entries: [{ path: manifestPath, bytes: manifestBytes }, ...others] };
}

/** All files are as they were, yet the zip is not: the place is where one written anew differs. */
function strayByte(zip: Uint8Array, entries: readonly ZipEntry[]): Problem {
	const anew = writeZip(entries);
	const at = anew.findIndex((byte, place) => byte !== zip[place]);
	const owner = at < 0 ? null : ownerOf(anew, at);
	return owner === null
		? { path: zipItself, value: '', message: 'is damaged at its end; the files in it are as they were' }
		: { path: owner, value: '', message: 'is as it was, but what the zip says of it is damaged' };
}
