import { useRef } from 'preact/hooks';
import type { InputSectionRows } from '../../model/inputs/rows.ts';
import type { PageModel } from '../../model/page-model.ts';
import { InputRowView } from './input-row.tsx';
import { Inspector } from './inspector.tsx';
import { SensingNetwork } from './sensing-network.tsx';

/** One section of the form; one is open at a time. */
export function InputSection({ section, model }: { section: InputSectionRows; model: PageModel }) {
	const { inputs } = model;
	const cameFrom = useRef<HTMLElement | null>(null);
	const isOpen = inputs.openSection.value === section.id;
	const edited = section.groups.flatMap(({ rows }) => rows).find(({ key }) => key === inputs.focused.value);
	const hasParts = section.groups.some(({ rows }) => rows.some(({ record }) => record.role === 'part'));
	const hasRanges = section.groups.some(({ rows }) =>
		rows.some(({ fields }) => fields.some((f) => f.field === 'range')),
	);
	return (
		<section class="input-section">
			<h3>
				<button
					type="button"
					aria-expanded={isOpen}
					aria-controls={`inputs-${section.id}`}
					onClick={() => {
						inputs.openSection.value = isOpen ? '' : section.id;
					}}
				>
					{section.title}
					<span class="tallies">
						{section.changes > 0 && <span class="changes">{section.changes} changed</span>}
						{section.problems > 0 && (
							<span class="problem">{section.problems === 1 ? '1 problem' : `${section.problems} problems`}</span>
						)}
					</span>
				</button>
			</h3>
			{/* biome-ignore lint/a11y/noStaticElementInteractions: keys that lead between the fields and what is said about the one being edited */}
			<div id={`inputs-${section.id}`} hidden={!isOpen} onKeyDown={(event) => inspectorKeys(event, cameFrom)}>
				{isOpen && (
					<>
						{section.id === 'sensing' && <SensingNetwork model={model} />}
						{(hasParts || hasRanges) && (
							<p class="columns" aria-hidden="true">
								<span class="value">value</span>
								{hasParts ? (
									<>
										<span>± lot</span>
										<span>± mismatch</span>
										<span>distribution</span>
									</>
								) : (
									<span>± range</span>
								)}
							</p>
						)}
						{section.groups.map(({ title, rows }) => (
							<fieldset key={title}>
								<legend class={title ? '' : 'heard-only'}>{title || section.title}</legend>
								{rows.map((row) => (
									<InputRowView key={row.key} row={row} model={model} />
								))}
							</fieldset>
						))}
						{edited && <Inspector row={edited} model={model} />}
					</>
				)}
			</div>
		</section>
	);
}

/**
 * F2 leads from a field to the buttons of its inspector, Esc back to that field: Tab cannot, since it goes on to the next
 * row, whose inspector it then is.
 */
function inspectorKeys(event: KeyboardEvent, cameFrom: { current: HTMLElement | null }): void {
	const { key, target, currentTarget } = event;
	if (!(target instanceof HTMLElement && currentTarget instanceof HTMLElement)) return;
	const isInside = target.closest('.inspector') !== null;
	if (key === 'F2' && !isInside) {
		cameFrom.current = target;
		currentTarget.querySelector<HTMLElement>('.inspector :is(button, input)')?.focus();
		event.preventDefault();
	}
	if (key === 'Escape' && isInside) cameFrom.current?.focus();
}
