import { expect, test } from 'vitest';
import { type Address, createRoute, readRoute, routeLink } from '../../src/page/model/route.ts';

function address(hash: string): Address & { hash: string; steps: number; go: (hash: string) => void } {
	let changed = (): void => {};
	return {
		hash,
		steps: 0,
		read() {
			return this.hash;
		},
		write(next, isStep) {
			this.hash = next;
			if (isStep) this.steps += 1;
		},
		onChange(call) {
			changed = call;
		},
		go(next) {
			this.hash = next;
			changed();
		},
	};
}

test('a link to a view and its details reads back as written, signs of their own included', () => {
	const details = { seed: 'a&b=c ?#é', unit: '17' };
	expect(readRoute(routeLink('which-choice', details))).toEqual({ view: 'which-choice', details });
});

test.each(['', '#', '#answer', '#no-such-view', '#constructor', '#toString?x=1'])('%j names no view', (hash) => {
	expect(readRoute(hash)).toBeNull();
});

test('a link that names no view is told of until one does', () => {
	const bar = address('#no-such-view');
	const route = createRoute(bar);
	expect(route.lost.value).toBe('#no-such-view');
	bar.go('#grades');
	expect(route.lost.value).toBe('');
	for (const fine of ['', '#', '#answer']) {
		bar.go(fine);
		expect(route.lost.value, fine).toBe('');
	}
});

test('a page opened without a view shows the first one; an address of no view changes nothing', () => {
	const bar = address('');
	const route = createRoute(bar);
	expect(route.view.value).toBe('which-choice');
	bar.go('#which-choice?point=2');
	expect(route.details.value).toEqual({ point: '2' });
	bar.go('#elsewhere');
	expect(route.details.value).toEqual({ point: '2' });
});

test('going somewhere is a step to come back from, refining the details is none', () => {
	const bar = address('#which-choice');
	const route = createRoute(bar);
	route.go('which-choice', { point: '1' });
	route.refine({ point: '2' });
	expect(bar).toMatchObject({ hash: '#which-choice?point=2', steps: 1 });
});
