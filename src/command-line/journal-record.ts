import { createHash } from 'node:crypto';
import { deflateRawSync, inflateRawSync } from 'node:zlib';
import type { ShardResult } from '../../shared/study/run-shard.ts';
import { shardBytes, shardFromBytes } from '../../shared/study/shard-bytes.ts';

/*
 * A journal is a text file of JSON values, one a line: a head that says which
 * study it is of, then a record a finished shard. The last member of every line
 * is the SHA-256 of the line without it.
 */

/** How every journal begins. */
export const journalStart = '{"format":"anglespread-journal"';

const newestVersion = 1;
/** As long as the end of every line. */
const checksumMember = `,"checksum":"${'0'.repeat(64)}"}`;

/** What a study must have in common with a journal to take shards from it. */
export interface JournalHead {
	/** Version of the program, and SHA-256 of the part of it that simulates. */
	readonly version: string;
	readonly engine: string;
	readonly scenario: string;
	readonly scenarioDigest: string;
	readonly seed: string;
}

/** What a record says beside its numbers. */
export type RecordPlace = Pick<ShardResult, 'from' | 'to'>;

export const headLine = (head: JournalHead): string =>
	sealed({ format: 'anglespread-journal', formatVersion: newestVersion, ...head });

/** The head a line holds, or what is wrong with it, to be said of its file. */
export function readHead(line: string): { readonly head: JournalHead } | { readonly problem: string } {
	const written = line.match(/"formatVersion":(\d+)/)?.[1];
	if (Number(written) > newestVersion) {
		return {
			problem: `was written by a newer version (journals of form ${written}; this one reads ${newestVersion}): go on with that version, or name another file`,
		};
	}
	const body = unsealed(line);
	return body === null
		? { problem: 'has a damaged first line, so that nobody knows what study it is of: name another file' }
		: { head: JSON.parse(body) as JournalHead };
}

export function shardLine(shard: ShardResult): string {
	const { from, to, failures } = shard;
	const data = deflateRawSync(shardBytes(shard), { level: 1 }).toString('base64');
	return sealed({ from, to, failures, data });
}

/** Which units a whole record is of; null where it is damaged. */
export function readPlace(line: string): RecordPlace | null {
	const body = unsealed(line);
	if (body === null) return null;
	const { from, to } = JSON.parse(body) as RecordPlace;
	return { from, to };
}

/** The shard of a record; null where it is damaged. @param points of the scenario */
export function readShard(line: string, points: number): ShardResult | null {
	const body = unsealed(line);
	if (body === null) return null;
	const { data, ...place } = JSON.parse(body) as Omit<ShardResult, 'columns' | 'histograms'> & {
		readonly data: string;
	};
	return shardFromBytes(inflateRawSync(Buffer.from(data, 'base64')), points, place);
}

/** One line, its checksum last. */
const sealed = (value: object): string => `${withChecksum(JSON.stringify(value))}\n`;

/** A line's value without the checksum, as JSON; null where the checksum is not that of the value. */
function unsealed(line: string): string | null {
	const body = `${line.slice(0, -checksumMember.length)}}`;
	return line === withChecksum(body) ? body : null;
}

function withChecksum(body: string): string {
	const checksum = createHash('sha256').update(body).digest('hex');
	return `${body.slice(0, -1)},"checksum":"${checksum}"}`;
}
