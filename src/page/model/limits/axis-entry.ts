import { computed, type ReadonlySignal, type Signal } from '@preact/signals';
import type { NumberRecord } from '../../../../shared/parameters/parameter.ts';
import { readAxis } from '../../../../shared/range/read-axis.ts';
import { usualAxis, type WrittenAxis } from '../../../../shared/range/usual-axis.ts';
import type { Scenario } from '../../../../shared/scenario/scenario.ts';
import { isText } from '../fields.ts';

/** What was typed of an axis, and of which parameter. */
export interface TypedAxis extends Partial<WrittenAxis> {
	readonly of: string;
}

export const nothingTyped: TypedAxis = { of: '' };

export const isTypedAxis = (value: unknown): value is TypedAxis =>
	typeof value === 'object' &&
	value !== null &&
	'of' in value &&
	Object.entries(value).every(([key, part]) => (key === 'isLogarithmic' ? typeof part === 'boolean' : isText(part)));

/** The ends and the number of values of one axis, as typed: until then they are the usual ones of the scenario. */
export function createAxisEntry(
	record: ReadonlySignal<NumberRecord>,
	scenario: ReadonlySignal<Scenario | null>,
	typed: Signal<TypedAxis>,
	steps?: number,
) {
	const usual = computed(() => (scenario.value ? usualAxis(record.value, scenario.value, steps) : null));
	const own = computed(() => (typed.value.of === record.value.id ? typed.value : null));
	const written = computed<WrittenAxis | null>(() => usual.value && { ...usual.value, ...own.value });
	const reading = computed(() => {
		if (!written.value) return { problems: ['a scenario is needed'] };
		const { from, to, steps, isLogarithmic } = written.value;
		return readAxis(`${record.value.id}=${from}..${to}/${steps}${isLogarithmic ? ' log' : ''}`);
	});
	return {
		written,
		axis: computed(() => ('axis' in reading.value ? reading.value.axis : null)),
		problem: computed(() => ('problems' in reading.value ? reading.value.problems.join('; it ') : '')),
		type(part: Partial<WrittenAxis>): void {
			typed.value = { ...own.value, ...part, of: record.value.id };
		},
	};
}

export type AxisEntry = ReturnType<typeof createAxisEntry>;
