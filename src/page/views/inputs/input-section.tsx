import type { InputSectionRows } from '../../model/inputs/rows.ts';
import type { PageModel } from '../../model/page-model.ts';
import { InputRowView } from './input-row.tsx';
import { Inspector } from './inspector.tsx';
import { SensingNetwork } from './sensing-network.tsx';

/** One section of the form; one is open at a time. */
export function InputSection({ section, model }: { section: InputSectionRows; model: PageModel }) {
	const { inputs } = model;
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
			<div id={`inputs-${section.id}`} hidden={!isOpen}>
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
