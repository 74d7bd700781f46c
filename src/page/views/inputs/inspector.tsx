import { useEffect, useRef } from 'preact/hooks';
import { limits } from '../../../../shared/scenario/read-entry.ts';
import { partHelp } from '../../model/inputs/part-help.ts';
import type { InputRow } from '../../model/inputs/rows.ts';
import type { PageModel } from '../../model/page-model.ts';
import { MeasuredPart } from './measured-part.tsx';

/** What is worth knowing about the parameter being edited, and what helps to choose it. */
export function Inspector({ row, model }: { row: InputRow; model: PageModel }) {
	const { inputs } = model;
	const { record } = row;
	const help = partHelp(row);
	const panel = useRef<HTMLElement>(null);
	const shownFor = useRef('');
	useEffect(() => {
		// it lies over the form's lower end, where the row may be, and is as high as what it has to say; not while a mouse
		// holds a list open
		const focused = document.querySelector('[data-row] :focus-visible')?.closest<HTMLElement>('[data-row]');
		if (!focused || !panel.current) return;
		const { offsetHeight } = panel.current;
		const now = `${row.key} ${offsetHeight}`;
		// who has scrolled on since is left alone
		if (now === shownFor.current) return;
		shownFor.current = now;
		focused.style.scrollMarginBottom = `${offsetHeight + 8}px`;
		focused.scrollIntoView({ block: 'nearest' });
	});
	return (
		<aside ref={panel} class="inspector" data-about={row.key} aria-label={`About ${record.name}`}>
			<p>
				<strong>{record.name}</strong>. {record.sentence}
				{record.kind !== 'choice' && ` Takes ${limits(record)}.`}
			</p>
			{help && (
				<>
					<p class="series controls">
						<span>{help.standing}</span>
						<Step
							words={`Next lower of ${help.series}`}
							isNearest={help.nearest === help.lower}
							value={help.lower}
							onClick={() => inputs.set(row, 'value', help.lower)}
						/>
						<Step
							words={`Next higher of ${help.series}`}
							isNearest={help.nearest === help.higher}
							value={help.higher}
							onClick={() => inputs.set(row, 'value', help.higher)}
						/>
						<span class="hint">or ↑ ↓ in the field</span>
					</p>
					{row.measured === 0 && (
						<p class="grade-buttons controls">
							<span>Grade ±</span>
							{help.grades.map(({ text, isCurrent }) => (
								<button
									key={text}
									type="button"
									class="quiet"
									aria-pressed={isCurrent}
									onClick={() => inputs.set(row, 'mismatch', text)}
								>
									{text}
								</button>
							))}
						</p>
					)}
				</>
			)}
			{record.role === 'part' && (
				<>
					<MeasuredPart row={row} model={model} />
					<p class="hint keys">By keyboard: F2 in the field leads here, Esc back.</p>
				</>
			)}
		</aside>
	);
}

function Step({
	words,
	isNearest,
	value,
	onClick,
}: {
	words: string;
	isNearest: boolean;
	value: string;
	onClick: () => void;
}) {
	return (
		<button type="button" class="quiet" onClick={onClick}>
			<span class="heard-only">{words}: </span>
			{isNearest ? <strong>{value}</strong> : value}
		</button>
	);
}
