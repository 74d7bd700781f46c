import type { Changed } from '../model/change-words.ts';

/** What changed since the baseline, with what it is of beneath. */
export const ChangedWords = ({ changed: { lead, basis } }: { readonly changed: Changed }) => (
	<p class="changed">
		{lead} {basis && <small>{basis}</small>}
	</p>
);
