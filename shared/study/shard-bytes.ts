import { choiceNames } from '../drive/drive.ts';
import { angleBins } from './angle-histogram.ts';
import { type Columns, columnBytes, countNames, measureNames } from './columns.ts';
import type { ShardResult } from './run-shard.ts';

/** Every number of a shard as bytes: its columns in the order they are declared, real ones first, then the histograms. */
export function shardBytes({ columns, histograms }: ShardResult): Uint8Array<ArrayBuffer> {
	const parts = [...[...measureNames, ...countNames].map((name) => columns[name]), histograms].map((part) =>
		columnBytes(part),
	);
	const bytes = new Uint8Array(parts.reduce((sum, { length }) => sum + length, 0));
	let at = 0;
	for (const part of parts) {
		bytes.set(part, at);
		at += part.length;
	}
	return bytes;
}

/**
 * The shard those bytes are of. Throws where they are not as many as its units have.
 *
 * @param points of the scenario
 */
export function shardFromBytes(
	bytes: Uint8Array,
	points: number,
	{ from, to, failures }: Pick<ShardResult, 'from' | 'to' | 'failures'>,
): ShardResult {
	const cells = (to - from) * points * choiceNames.length;
	const bins = points * choiceNames.length * angleBins.count;
	const size = cells * (8 * measureNames.length + 4 * countNames.length) + 4 * bins;
	if (bytes.length !== size) throw new RangeError(`${bytes.length} bytes are no shard of ${size}`);
	let at = 0;
	// copied out, since a view of eight bytes may begin at multiples of eight alone
	const next = (length: number): ArrayBuffer => {
		const part = new Uint8Array(bytes.subarray(at, at + length));
		at += length;
		return part.buffer;
	};
	const measures = measureNames.map((name) => [name, new Float64Array(next(8 * cells))]);
	const counts = countNames.map((name) => [name, new Uint32Array(next(4 * cells))]);
	const columns = Object.fromEntries([...counts, ...measures]) as Columns;
	return { from, to, columns, histograms: new Uint32Array(next(4 * bins)), failures };
}
