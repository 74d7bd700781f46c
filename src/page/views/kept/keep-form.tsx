import type { Kept } from '../../model/kept/kept.ts';
import { longestName, longestNote } from '../../model/kept/kept-record.ts';
import { Form } from '../../parts/form.tsx';

/** Keeps the figures on show under a name, with a note. */
export function KeepForm({ kept }: { kept: Kept }) {
	const { name, note, obstacle } = kept;
	return (
		<Form class="keep" labelledBy="keep-title" onSubmit={kept.keep}>
			<h3 id="keep-title">Keep these figures</h3>
			<div class="field">
				<label for="kept-name">Name</label>
				<input
					id="kept-name"
					type="text"
					maxLength={longestName}
					autocomplete="off"
					value={name.value}
					onInput={(event) => kept.typeName(event.currentTarget.value)}
				/>
			</div>
			<div class="field">
				<label for="kept-note">Note</label>
				<textarea
					id="kept-note"
					rows={3}
					maxLength={longestNote}
					value={note.value}
					onInput={(event) => kept.typeNote(event.currentTarget.value)}
				/>
			</div>
			<p class="buttons">
				<button type="submit" disabled={obstacle.value !== ''} aria-describedby="keep-obstacle">
					Keep in this browser
				</button>
			</p>
			<p id="keep-obstacle" class="aside">
				{obstacle.value}
			</p>
		</Form>
	);
}
