import { closeSync, fstatSync, fsyncSync, ftruncateSync, openSync, readSync, writeFileSync } from 'node:fs';
import type { ShardResult } from '../../shared/study/run-shard.ts';
import type { StudyJournal } from '../host/study-journal.ts';
import { fileErrorWords } from './file-error.ts';
import {
	headLine,
	type JournalHead,
	journalStart,
	type RecordPlace,
	readHead,
	readPlace,
	readShard,
	shardLine,
} from './journal-record.ts';

/** Milliseconds after which records are handed to the disk itself: a process that is killed loses none of them, a machine that loses its power at most these. */
const syncInterval = 1000;

/** A journal open for a study. */
export interface OpenJournal extends StudyJournal {
	/** What was found wrong in it, in sentences. */
	readonly remarks: readonly string[];
	/** Drives below `units` that need not be simulated again. */
	drives(units: number): number;
	/** Ends it. Throws what kept it from taking shards, if anything did. */
	close(): void;
}

/** A whole record's units and its place in the file. */
interface Entry extends RecordPlace {
	readonly at: number;
	readonly length: number;
}

/**
 * Opens a study's journal, or begins it where there is no such file. What a kill
 * left torn at its end is cut off; damaged records are passed over. Says what is
 * wrong, and changes nothing, where the file is not a journal of this study.
 *
 * @param points of the scenario
 */
export function openJournal(
	path: string,
	head: JournalHead,
	points: number,
): { readonly journal: OpenJournal } | { readonly problem: string } {
	let file: number | null = null;
	try {
		file = openSync(path, 'a+');
		const found = readJournal(file, head);
		if ('end' in found) {
			ftruncateSync(file, found.end);
			if (found.end === 0) writeFileSync(file, headLine(head));
			return { journal: keepIn(file, { points, ...found }) };
		}
		closeSync(file);
		return found;
	} catch (error) {
		if (file !== null) closeSync(file);
		return { problem: `cannot be used: ${fileErrorWords(error)}` };
	}
}

interface Found {
	readonly entries: readonly Entry[];
	/** Bytes up to the end of the last whole line. */
	readonly end: number;
	readonly remarks: readonly string[];
}

function readJournal(file: number, head: JournalHead): Found | { readonly problem: string } {
	const { size } = fstatSync(file);
	const start = textAt(file, 0, Math.min(size, journalStart.length));
	if (!journalStart.startsWith(start)) return { problem: 'is not a journal: name another file, or none yet there' };
	const entries: Entry[] = [];
	let end = 0;
	let damaged = 0;
	for (const line of lines(file, size)) {
		if (end === 0) {
			const own = readHead(line.text);
			if ('problem' in own) return own;
			const difference = differenceOf(own.head, head);
			if (difference !== null) return { problem: difference };
		} else {
			const place = readPlace(line.text);
			if (place === null) damaged += 1;
			else entries.push({ ...place, at: line.at, length: line.length });
		}
		end = line.at + line.length + 1;
	}
	const remarks: string[] = [];
	if (end < size) {
		const what = end === 0 ? 'first line was torn: it is begun anew' : 'last record was torn and is dropped';
		remarks.push(`Its ${what}.`);
	}
	if (damaged > 0) remarks.push(`Damaged records in it, now dropped: ${damaged}.`);
	return { entries, end, remarks };
}

/** Why shards of one study are none of the other, and what to do; null where they are. */
function differenceOf(kept: JournalHead, asked: JournalHead): string | null {
	const short = (digest: string): string => digest.slice(0, 12);
	if (kept.scenarioDigest !== asked.scenarioDigest) {
		return `is the journal of another scenario (“${kept.scenario}”, digest ${short(kept.scenarioDigest)}…; this one is “${asked.scenario}”, ${short(asked.scenarioDigest)}…): go on with that scenario as it was, or name another file`;
	}
	if (kept.seed !== asked.seed) {
		return `is the journal of seed “${kept.seed}”, not “${asked.seed}”: go on with --seed "${kept.seed}", or name another file`;
	}
	if (kept.engine !== asked.engine || kept.version !== asked.version) {
		return `was begun by another engine (version ${kept.version}, ${short(kept.engine)}…; this is version ${asked.version}, ${short(asked.engine)}…), whose drives may differ: go on with that one, or name another file`;
	}
	return null;
}

function keepIn(file: number, { points, entries, remarks }: Found & { readonly points: number }): OpenJournal {
	let failure: unknown = null;
	let syncedAt = performance.now();
	const attempt = (write: () => void): void => {
		if (failure !== null) return;
		try {
			write();
		} catch (error) {
			failure = error;
		}
	};
	return {
		remarks,
		drives: (units) => disjoint(entries, 0, units).reduce((sum, { from, to }) => sum + to - from, 0),
		*shards(from, to) {
			for (const { at, length } of disjoint(entries, from, to)) {
				const shard = readShard(textAt(file, at, length), points);
				if (shard !== null) yield shard;
			}
		},
		keep: (shard: ShardResult) =>
			attempt(() => {
				writeFileSync(file, shardLine(shard));
				if (performance.now() - syncedAt < syncInterval) return;
				fsyncSync(file);
				syncedAt = performance.now();
			}),
		close() {
			attempt(() => fsyncSync(file));
			closeSync(file);
			if (failure !== null) throw failure;
		},
	};
}

/** Records within units `from` up to `to`, by rising index; of two that share units, one. */
function disjoint(entries: readonly Entry[], from: number, to: number): readonly Entry[] {
	const within = entries.filter((entry) => entry.from >= from && entry.to <= to);
	let end = from;
	return within
		.sort((one, other) => one.from - other.from)
		.filter((entry) => {
			const isFree = entry.from >= end;
			if (isFree) end = entry.to;
			return isFree;
		});
}

/** Every line that ends in one, as the file is read through. */
function* lines(file: number, size: number): Generator<{ text: string; at: number; length: number }> {
	const piece = 1 << 20;
	let rest = Buffer.alloc(0);
	/** Where `rest` begins in the file. */
	let at = 0;
	for (let read = 0; read < size; ) {
		const next = bytesAt(file, read, Math.min(piece, size - read));
		read += next.length;
		rest = Buffer.concat([rest, next]);
		let from = 0;
		for (let end = rest.indexOf(10); end >= 0; end = rest.indexOf(10, from)) {
			yield { text: rest.toString('utf8', from, end), at: at + from, length: end - from };
			from = end + 1;
		}
		at += from;
		rest = rest.subarray(from);
	}
}

const textAt = (file: number, at: number, length: number): string => bytesAt(file, at, length).toString('utf8');

function bytesAt(file: number, at: number, length: number): Buffer<ArrayBuffer> {
	const bytes = Buffer.alloc(length);
	let read = 0;
	while (read < length) {
		const more = readSync(file, bytes, read, length - read, at + read);
		if (more === 0) throw new Error('the file became shorter while it was read');
		read += more;
	}
	return bytes;
}
