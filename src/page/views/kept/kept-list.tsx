import { useEffect, useRef, useState } from 'preact/hooks';
import { studySentence } from '../../../../shared/study/sentence.ts';
import { count } from '../../../../shared/words/figures.ts';
import type { Kept } from '../../model/kept/kept.ts';
import { type KeptRecord, longestName, longestNote } from '../../model/kept/kept-record.ts';
import type { PageModel } from '../../model/page-model.ts';
import { Form } from '../../parts/form.tsx';
import { momentWords } from '../../parts/moment-words.ts';

/** Everything that is kept in this browser; what is broken is said to be, and can be removed. */
export function KeptList({ kept, model }: { kept: Kept; model: PageModel }) {
	const { stored } = kept;
	if (stored.value.length === 0) return null;
	return (
		<section class="kept-list" aria-labelledby="kept-title">
			<h3 id="kept-title">Kept results</h3>
			<ul>
				{stored.value.map((one) =>
					'record' in one ? (
						<Record key={one.record.id} record={one.record} kept={kept} model={model} />
					) : (
						<li key={one.id} class="broken">
							<p class="problem">A kept result cannot be read: {one.problem}. It is left alone and used for nothing.</p>
							<p class="buttons">
								<button type="button" disabled={one.id === ''} onClick={() => void kept.remove(one.id)}>
									Remove it
								</button>
							</p>
						</li>
					),
				)}
			</ul>
		</section>
	);
}

function Record({ record, kept, model }: { record: KeptRecord; kept: Kept; model: PageModel }) {
	const [isEdited, setEdited] = useState(false);
	const editButton = useRef<HTMLButtonElement>(null);
	const { provenance } = record.result;
	return (
		<li>
			<div class="what">
				<h4>{record.name}</h4>
				<p class="aside">
					{momentWords(record.keptAt)} · {provenance.scenario} · {count(provenance.units.finished)} drives · seed{' '}
					{provenance.seed} · version {provenance.version} · result {provenance.resultDigest.slice(0, 12)}
				</p>
				<p>{studySentence(record.result)}</p>
				{record.note && <p class="note">{record.note}</p>}
				{isEdited && (
					<Edit
						record={record}
						done={(to) => {
							setEdited(false);
							editButton.current?.focus();
							if (to) void kept.rename(record, to);
						}}
					/>
				)}
			</div>
			<p class="buttons">
				<label class="choose">
					<input
						type="checkbox"
						checked={kept.chosen.value.includes(record.id)}
						onChange={(event) => kept.choose(record.id, event.currentTarget.checked)}
					/>
					<span>
						Side by side<span class="heard-only">: {record.name}</span>
					</span>
				</label>
				<button
					type="button"
					aria-label={`Open ${record.name}`}
					onClick={() => {
						void kept.open(record);
						model.route.go('which-choice');
					}}
				>
					Open
				</button>
				<button
					ref={editButton}
					type="button"
					aria-expanded={isEdited}
					aria-label={`Name and note of ${record.name}`}
					onClick={() => setEdited(!isEdited)}
				>
					Name, note
				</button>
				<button type="button" aria-label={`Remove ${record.name}`} onClick={() => void kept.remove(record.id)}>
					Remove
				</button>
			</p>
		</li>
	);
}

function Edit({ record, done }: { record: KeptRecord; done: (to: { name: string; note: string } | null) => void }) {
	const [name, setName] = useState(record.name);
	const [note, setNote] = useState(record.note);
	const first = useRef<HTMLInputElement>(null);
	useEffect(() => first.current?.focus(), []);
	return (
		<Form
			class="edit"
			label={`Name and note of ${record.name}`}
			onSubmit={() => done({ name, note })}
			onEscape={() => done(null)}
		>
			<div class="field">
				<label for={`name-${record.id}`}>Name</label>
				<input
					ref={first}
					id={`name-${record.id}`}
					type="text"
					maxLength={longestName}
					value={name}
					onInput={(event) => setName(event.currentTarget.value)}
				/>
			</div>
			<div class="field">
				<label for={`note-${record.id}`}>Note</label>
				<textarea
					id={`note-${record.id}`}
					rows={2}
					maxLength={longestNote}
					value={note}
					onInput={(event) => setNote(event.currentTarget.value)}
				/>
			</div>
			<p class="buttons">
				<button type="submit">Keep the change</button>
				<button type="button" onClick={() => done(null)}>
					Leave as it was
				</button>
			</p>
		</Form>
	);
}
