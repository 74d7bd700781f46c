import { computed } from '@preact/signals';
import type { PageModel } from './page-model.ts';

/** Why the figures on show are no whole result of the inputs as they are, to be kept or reported; '' where they are. */
export const whatIsMissing = ({ shown, request, state }: Pick<PageModel, 'shown' | 'request' | 'state'>) =>
	computed(() => {
		const of = shown.value;
		if (!of) return 'There are no figures yet.';
		const is = request.value;
		if (is?.scenario !== of.scenario || is.units !== of.units || is.seed !== of.seed)
			return 'The figures on show are not those of the inputs as they are now: run them first.';
		if (of.result.provenance.partial)
			return state.value === 'running'
				? 'The run is still going on.'
				: 'The run was stopped: only whole results are kept.';
		return '';
	});
