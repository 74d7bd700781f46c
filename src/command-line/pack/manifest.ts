import { createHash } from 'node:crypto';
import { jsonText } from '../../../shared/results/json-text.ts';
import { count, list, object, one, text } from '../../../shared/results/shape.ts';
import { shortened } from '../../../shared/scenario/read-json.ts';
import type { Problem } from '../../../shared/scenario/scenario.ts';
import type { ZipEntry } from './zip-file.ts';

/** What a pack holds and how its figures are made again. */
export interface Manifest {
	readonly format: 'anglespread-pack';
	readonly formatVersion: 1;
	/** Version of the program that the pack holds and that made it. */
	readonly version: string;
	readonly scenario: string;
	readonly seed: string;
	/** Of the result, over every drive's columns. */
	readonly resultDigest: string;
	/** What the packed program is started with, in the unpacked folder; it writes its results to `again.json`. */
	readonly arguments: readonly string[];
	/** Every other file of the pack. */
	readonly files: readonly PackedFile[];
}

interface PackedFile {
	readonly path: string;
	readonly bytes: number;
	/** In hexadecimal. */
	readonly sha256: string;
}

export const manifestPath = 'manifest.json';
export const packVersion = 1;

/** Names of the files that `reproduce` looks for. */
export const packed = {
	scenario: 'scenario.json',
	results: 'results.json',
	report: 'report.html',
	program: 'program/study.js',
	again: 'again.json',
} as const;

const sha256 = (bytes: Uint8Array | string): string => createHash('sha256').update(bytes).digest('hex');

export const packedFile = ({ path, bytes }: ZipEntry): PackedFile => ({
	path,
	bytes: bytes.length,
	sha256: sha256(bytes),
});

/** As text, with a digest over what it says. */
export function manifestText(manifest: Manifest): string {
	return `${jsonText({ ...manifest, digest: sha256(jsonText(manifest)) })}\n`;
}

/** A path inside the folder that the pack is unpacked to. */
const isInside = (path: string): boolean => /^[\w-][\w.-]*(?:\/[\w-][\w.-]*)*$/.test(path) && path.length <= 200;

const shape = object<Manifest>({
	format: one('anglespread-pack'),
	formatVersion: one(packVersion),
	version: text(100),
	scenario: text(300),
	seed: text(300),
	resultDigest: text(64),
	arguments: list(text(300), 40),
	files: list(
		object<PackedFile>({
			path: (value, path) => (typeof value === 'string' && isInside(value) ? null : path),
			bytes: count,
			sha256: text(64),
		}),
		500,
	),
});

/** Reads a manifest; never throws. */
export function readManifest(bytes: Uint8Array): { readonly manifest: Manifest } | { readonly problem: Problem } {
	const refuse = (value: string, message: string) => ({ problem: { path: manifestPath, value, message } });
	let file: unknown;
	try {
		file = JSON.parse(Buffer.from(bytes).toString('utf8'));
	} catch {
		return refuse('', 'is damaged: it is not JSON');
	}
	const { format, formatVersion, digest, ...contents } = (file ?? {}) as Partial<Manifest> & { digest?: unknown };
	if (format !== 'anglespread-pack') return refuse(shortened(format ?? ''), 'is not the manifest of a pack');
	if (typeof formatVersion === 'number' && formatVersion > packVersion) {
		return refuse(
			`version ${formatVersion}`,
			`is newer than this program, which reads version ${packVersion}: use a newer program, or unpack it and follow its README.txt`,
		);
	}
	const manifest = { format, formatVersion, ...contents };
	const wrong = shape(manifest, '');
	if (wrong !== null) return refuse(wrong.replace(/^\./, ''), 'is not what a manifest has there: it is damaged');
	if (sha256(jsonText(manifest)) !== digest) return refuse('', 'is damaged: it does not fit its own digest');
	return { manifest: manifest as Manifest };
}
