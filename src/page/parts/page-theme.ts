import type { ChartTheme } from '../../../shared/charts/theme.ts';

/** Charts on the page take their colours from the stylesheet as they are drawn: light, dark and print need no redrawing. */
export function pageTheme(): ChartTheme {
	return {
		ink: 'var(--ink)',
		quiet: 'var(--quiet)',
		rule: 'var(--rule)',
		paper: 'var(--paper)',
		choice: {
			halfBus: { line: 'var(--half-bus)', fill: 'var(--half-bus-fill)' },
			virtualNeutral: { line: 'var(--virtual-neutral)', fill: 'url(#virtual-neutral-hatch)' },
		},
		font: getComputedStyle(document.body).fontFamily,
	};
}
