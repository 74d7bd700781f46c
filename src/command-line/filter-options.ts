import { longestWindow } from '../../shared/drive/sensing/acceptance-chain.ts';
import type { NumberRecord } from '../../shared/parameters/parameter.ts';
import { parameter } from '../../shared/parameters/parameters.ts';
import { parseQuantity } from '../../shared/parameters/quantity.ts';
import { limits } from '../../shared/scenario/read-entry.ts';
import { type Filter, isSameFilter } from '../../shared/votes/cell.ts';
import type { OptionRecord } from './command.ts';

const mostFilters = 40;
/** A table of 80 columns has room for so many. */
const mostSigmas = 3;

/** Every K of W up to the longest window named. */
const filtersUpTo = (longest: number): readonly Filter[] =>
	Array.from({ length: longest }, (_, w) => w + 1).flatMap((window) =>
		Array.from({ length: window }, (_, k) => ({ votes: k + 1, window })),
	);

/** Majority filters as "1/1, 2/3, 3/5". */
export const filtersOption: OptionRecord<readonly Filter[]> = {
	placeholder: 'LIST',
	sentence: `Majority filters to judge, votes K of the last W readings, separated by commas: "1/1, 2/3, 3/5". At most ${mostFilters}, W from 1 to ${longestWindow}, K from 1 to W. Default all with W up to 5.`,
	fallback: filtersUpTo(5),
	read(written) {
		const entries = written.split(',').map((entry) => entry.trim());
		const unfit = entries.filter((entry) => filterOf(entry) === null);
		if (unfit.length > 0) {
			return {
				problem: `must be a list of K/W such as "1/1, 2/3", W from 1 to ${longestWindow} and K from 1 to W; not so: ${unfit.slice(0, 5).join(', ') || 'empty'}`,
			};
		}
		const filters = distinct(entries.map((entry) => filterOf(entry) as Filter));
		return filters.length > mostFilters
			? { problem: `has ${filters.length} filters, at most ${mostFilters}` }
			: { value: filters };
	},
};

/** Noise as "2 mV, 4 mV"; null: half, one and two times the scenario's. */
export const noiseOption: OptionRecord<readonly number[] | null> = {
	placeholder: 'LIST',
	sentence: `Noise of a reading to judge with (V standard deviation), beside the scenario's own: "2 mV, 8 mV". At most ${mostSigmas - 1}. Default half and twice the scenario's.`,
	fallback: null,
	read(written) {
		const record = parameter('noise.sigma') as NumberRecord;
		const problems: string[] = [];
		const values = written.split(',').map((entry) => {
			const quantity = parseQuantity(entry.trim(), record.unit);
			if ('problem' in quantity) problems.push(`${entry.trim()} ${quantity.problem}`);
			else if (quantity.value < record.min || quantity.value > record.max) {
				problems.push(`${entry.trim()} must be ${limits(record)}`);
			} else return quantity.value;
			return 0;
		});
		if (values.length > mostSigmas - 1) problems.push(`has ${values.length} values, at most ${mostSigmas - 1}`);
		return problems.length > 0 ? { problem: problems.join('; ') } : { value: [...new Set(values)] };
	},
};

function filterOf(entry: string): Filter | null {
	const [, votes = '', window = ''] = /^(\d{1,2}) ?(?:\/|of) ?(\d{1,2})$/.exec(entry) ?? [];
	const filter = { votes: Number(votes), window: Number(window) };
	const isFit = filter.votes >= 1 && filter.votes <= filter.window && filter.window <= longestWindow;
	return isFit ? filter : null;
}

/** Each filter once. */
export const distinct = (filters: readonly Filter[]): readonly Filter[] =>
	filters.filter((filter, place) => filters.findIndex((one) => isSameFilter(one, filter)) === place);
