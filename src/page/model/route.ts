import { computed, signal } from '@preact/signals';

/**
 * The views in the order of the questions that they answer, and what the links to them say. A further one is a
 * line here and one in views/view-list.ts.
 */
export const viewTitles = {
	'which-choice': 'Which choice',
	grades: 'What grade',
	origins: 'What drives the spread',
	limits: 'Where it stops',
	'what-changed': 'What changed',
	'one-drive': 'One drive',
	sign: 'What we sign',
	kept: 'Keep and share',
} as const;

export type ViewName = keyof typeof viewTitles;
export const viewNames = Object.keys(viewTitles) as ViewName[];

/** Where the page is: a view, and what of it. As a link: `#one-drive?unit=17&point=0`. */
export interface Route {
	readonly view: ViewName;
	readonly details: Readonly<Record<string, string>>;
}

/** The page's address as far as the model minds it: what follows the #. */
export interface Address {
	read(): string;
	/** @param isStep whether the reader should be able to go back from here */
	write(hash: string, isStep: boolean): void;
	onChange(call: () => void): void;
}

/** The route of an address; null where it names no view. */
export function readRoute(hash: string): Route | null {
	const [name = '', query = ''] = hash.replace(/^#/, '').split('?', 2);
	if (!Object.hasOwn(viewTitles, name)) return null;
	return { view: name as ViewName, details: Object.fromEntries(new URLSearchParams(query)) };
}

/** The link to a view. */
export function routeLink(view: ViewName, details: Route['details'] = {}): string {
	const query = new URLSearchParams(details).toString();
	return `#${view}${query && `?${query}`}`;
}

/** What names no view; the place that the skip link leads to is none and no mistake. */
const lostIn = (hash: string): string => (/^#?(answer)?$/.test(hash) || readRoute(hash) ? '' : hash);

/** Where the page is, kept in step with its address. */
export function createRoute(address: Address) {
	const route = signal<Route>(readRoute(address.read()) ?? { view: 'which-choice', details: {} });
	const lost = signal(lostIn(address.read()));
	address.onChange(() => {
		const hash = address.read();
		lost.value = lostIn(hash);
		route.value = readRoute(hash) ?? route.value;
	});
	const show = (next: Route, isStep: boolean): void => {
		address.write(routeLink(next.view, next.details), isStep);
		route.value = next;
	};
	return {
		view: computed(() => route.value.view),
		details: computed(() => route.value.details),
		/** What a link names that is no view; '' where all is well. */
		lost,
		go: (view: ViewName, details: Route['details'] = {}) => show({ view, details }, true),
		/** Other details of the same view, without a step to go back by. */
		refine: (details: Route['details']) => show({ view: route.value.view, details }, false),
	};
}
