import type { GradeProblem } from './read-grades.ts';

export type PricesReading = { readonly prices: readonly number[] } | { readonly problems: readonly GradeProblem[] };

/**
 * Prices of one resistor, in any one unit of money, in the order in which the
 * grades were written: "0.2, 0.3, 0.5". Everything that is wrong at once; never throws.
 *
 * @param grades how many grades were written
 */
export function readPrices(text: string, grades: number): PricesReading {
	const entries = text.split(',').map((entry) => entry.trim());
	const problems: GradeProblem[] = [];
	const prices = entries.map((entry) => {
		const price = Number(entry);
		if (!/^(\d+\.?\d*|\.\d+)$/.test(entry) || !(price <= 1e9)) {
			problems.push({ value: entry, message: 'must be a price from 0 to 10⁹ written as a plain number, such as 0.25' });
		}
		return price;
	});
	if (entries.length !== grades) {
		problems.push({
			value: text,
			message: `must have one price for each grade, in the same order: ${countOf(entries.length, 'price')} for ${countOf(grades, 'grade')}`,
		});
	}
	return problems.length > 0 ? { problems } : { prices };
}

const countOf = (number: number, word: string): string => `${number} ${word}${number === 1 ? '' : 's'}`;
