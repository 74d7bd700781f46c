import type { Address } from './model/route.ts';

/** The browser's address bar. */
export const browserAddress: Address = {
	read: () => location.hash,
	write(hash, isStep) {
		if (hash === location.hash) return;
		if (isStep) history.pushState(null, '', hash);
		else history.replaceState(null, '', hash);
	},
	onChange(call) {
		addEventListener('hashchange', call);
		addEventListener('popstate', call);
	},
};
