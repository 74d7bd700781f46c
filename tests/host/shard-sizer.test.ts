import { expect, test } from 'vitest';
import { ShardSizer } from '../../src/host/shard-sizer.ts';

test('shards aim at 100 ms: 50 indices of 2 ms each', () => {
	const sizer = new ShardSizer(2);
	sizer.took(4, 8);
	expect(sizer.next(100_000)).toBe(50);
});

test('the first shard is 1 index, whatever the job', () => {
	expect(new ShardSizer(2).next(1e6)).toBe(1);
	expect(new ShardSizer(8).next(3)).toBe(1);
});

test('towards the end shards halve the rest among the workers, but stay above 20 ms', () => {
	const sizer = new ShardSizer(2);
	sizer.took(4, 8);
	expect(sizer.next(80)).toBe(20);
	expect(sizer.next(4)).toBe(10);
});

test('an index of 5 s is a shard of its own', () => {
	const sizer = new ShardSizer(2);
	sizer.took(1, 5000);
	expect(sizer.next(1000)).toBe(1);
});

test('asked for 25 ms a shard, it gives 13 indices of 2 ms, and not below 5 ms at the end', () => {
	const sizer = new ShardSizer(2, undefined, 25);
	sizer.took(4, 8);
	expect(sizer.next(100_000)).toBe(13);
	expect(sizer.next(4)).toBe(3);
});

test('a size asked for is kept', () => {
	const sizer = new ShardSizer(2, 7);
	sizer.took(7, 1e6);
	expect(sizer.next(100)).toBe(7);
});
