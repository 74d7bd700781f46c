import { useState } from 'preact/hooks';
import type { PageModel } from '../../model/page-model.ts';
import { InputSection } from './input-section.tsx';

/** The scenario as a form: sections as an engineer thinks of them, and the steps between edits. */
export function InputsForm({ model }: { model: PageModel }) {
	const { inputs } = model;
	// where the form lies above the answer and not beside it, it waits until it is wanted
	const [isOpen] = useState(() => matchMedia('(min-width: 56.01rem)').matches);
	if (!inputs.document.value) return null;
	const changes = inputs.changes.value;
	return (
		<details class="inputs" open={isOpen}>
			<summary>
				<h2>Inputs</h2>
				<span class="changes">{changes > 0 ? `${changes} changed from the scenario` : 'as in the scenario'}</span>
			</summary>
			<p class="steps controls">
				<button
					type="button"
					disabled={inputs.undoWords.value === ''}
					title={inputs.undoWords.value ? `Undo ${inputs.undoWords.value} (Ctrl+Z)` : undefined}
					onClick={inputs.undo}
				>
					Undo
				</button>
				<button
					type="button"
					disabled={inputs.redoWords.value === ''}
					title={inputs.redoWords.value ? `Redo ${inputs.redoWords.value} (Ctrl+Shift+Z)` : undefined}
					onClick={inputs.redo}
				>
					Redo
				</button>
				<button type="button" disabled={changes === 0} onClick={inputs.reset}>
					Reset all
				</button>
			</p>
			{inputs.sections.value.map((section) => (
				<InputSection key={section.id} section={section} model={model} />
			))}
		</details>
	);
}
