import { computed, type ReadonlySignal, signal } from '@preact/signals';
import type { NumberRecord } from '../../../../shared/parameters/parameter.ts';
import { readAxis } from '../../../../shared/range/read-axis.ts';
import { usualAxis, type WrittenAxis } from '../../../../shared/range/usual-axis.ts';
import type { Scenario } from '../../../../shared/scenario/scenario.ts';

/** The ends and the number of values of one axis, as typed: until then they are the usual ones of the scenario. */
export function createAxisEntry(
	record: ReadonlySignal<NumberRecord>,
	scenario: ReadonlySignal<Scenario | null>,
	steps?: number,
) {
	const typed = signal<{ readonly of: string } & Partial<WrittenAxis>>({ of: '' });
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
