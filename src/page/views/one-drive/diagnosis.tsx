import { count } from '../../../../shared/words/figures.ts';
import type { OneDrive } from '../../model/one-drive/one-drive.ts';
import { ChangedWords } from '../../parts/changed-words.tsx';
import { ChoiceMark } from '../../parts/choice-mark.tsx';

/** What went wrong with each choice and why, in a sentence each. */
export function Diagnosis({ drive }: { drive: OneDrive }) {
	const { picked, start, points, board, diagnoses, failure, causes } = drive;
	const which = picked.value;
	if (!which)
		return <p class="sentence waiting">No drive is picked yet: it takes a study's first figures, or an index.</p>;
	const at = points.value[which.point]?.name ?? '';
	return (
		<div aria-live="polite">
			<p class="which">
				{board.value ? 'A measured board in place of drive' : 'Drive'} {count(which.unit)} at {at}
				{start.value !== null && <>, start {start.value + 1}</>}
			</p>
			{failure.value && <p class="problem">This drive could not be simulated: {failure.value}</p>}
			{!failure.value && diagnoses.value.length === 0 && (
				<p class="sentence waiting">
					{causes.value.state === 'working'
						? 'Simulating it as it is and without ringing, noise, mismatch, ripple and offset …'
						: 'Simulating its starts …'}
				</p>
			)}
			{diagnoses.value.map(({ choice, trouble, sentence, verdict }) => (
				<p key={choice} class={`sentence diagnosis ${trouble}`}>
					<ChoiceMark choice={choice} />
					{sentence}
					{verdict && <span class="verdict">{verdict}</span>}
				</p>
			))}
			{diagnoses.value.length > 0 && <SinceBaseline drive={drive} />}
		</div>
	);
}

/** The drive against its own in the pinned baseline. */
function SinceBaseline({ drive: { before } }: { drive: OneDrive }) {
	const change = before.change.value;
	const note = before.note.value;
	return (
		<>
			{change && <ChangedWords changed={change} />}
			{note && <p class="changed">{note}</p>}
		</>
	);
}
