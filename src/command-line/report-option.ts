import { type FurtherName, furtherNames } from '../../shared/report/ask.ts';
import type { OptionRecord } from './command.ts';
import { text } from './common-options.ts';

/** Options for the report of a study. */
export const reportOptions = {
	report: text(
		'FILE.html',
		'Also write a report for a release review: one page that can be read, printed and kept, and that computes its own figures again.',
		null,
		4096,
	),
	'report-with': {
		placeholder: 'LIST',
		sentence: `What else is computed for the report: ${furtherNames.join(', ')}, separated by commas, or all. They take minutes; what is left out is named in the report.`,
		fallback: [],
		read(written) {
			const words = written.split(',').map((word) => word.trim());
			if (words.length === 1 && words[0] === 'all') return { value: furtherNames };
			const strange = words.filter((word) => !furtherNames.includes(word as FurtherName));
			return strange.length > 0
				? { problem: `must be all, or some of ${furtherNames.join(', ')}, separated by commas` }
				: { value: words as FurtherName[] };
		},
	} satisfies OptionRecord<readonly FurtherName[]> as OptionRecord<readonly FurtherName[]>,
};
