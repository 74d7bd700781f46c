import { formatRelative } from '../../shared/parameters/format-quantity.ts';
import { parseQuantity } from '../../shared/parameters/quantity.ts';
import type { OptionRecord } from './command.ts';

/** A share within limits, as "1 %" or 0.01. */
export function shareOption(
	placeholder: string,
	sentence: string,
	fallback: number,
	[least, most]: readonly [number, number],
): OptionRecord<number> {
	return {
		placeholder,
		sentence,
		fallback,
		read(written) {
			const quantity = parseQuantity(written, '1');
			if ('problem' in quantity) return quantity;
			return quantity.value >= least && quantity.value <= most
				? { value: quantity.value }
				: { problem: `must be from ${formatRelative(least)} to ${formatRelative(most)}` };
		},
	};
}
