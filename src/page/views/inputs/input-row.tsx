import type { InputRow } from '../../model/inputs/rows.ts';
import type { PageModel } from '../../model/page-model.ts';
import { Symbols } from '../../parts/symbols.tsx';
import { InputFieldView } from './input-field.tsx';
import { problemId } from './problem-id.ts';

/** A parameter on one line: value with its unit, tolerances, distribution; what it was, and what is wrong with it. */
export function InputRowView({ row, model }: { row: InputRow; model: PageModel }) {
	const { inputs } = model;
	const { key, record, fields, was, problems, measured } = row;
	const isEdited = inputs.focused.value === key;
	const wrong = [...fields.filter(({ problem }) => problem !== ''), ...problems.map((problem) => ({ key, problem }))];
	return (
		<div
			class={`input-row ${record.role}${isEdited ? ' is-edited' : ''}${was === null ? '' : ' is-changed'}`}
			data-row={key}
			onFocusIn={() => inputs.focus(key)}
		>
			<div class="name">
				{record.name}
				{record.symbol !== '–' && (
					<>
						{' '}
						<Symbols symbol={record.symbol} />
					</>
				)}
			</div>
			{measured > 0
				? fields
						.filter(({ field }) => field === 'value' || field === 'distribution')
						.map((field) => [
							<InputFieldView key={field.key} row={row} field={field} model={model} />,
							field.field === 'value' && <span class="measured-count">{measured} measured</span>,
						])
				: fields.map((field) => <InputFieldView key={field.key} row={row} field={field} model={model} />)}
			{was !== null && (
				<p class="was">
					was {was}{' '}
					<button type="button" class="quiet controls" onClick={() => inputs.resetRow(row)}>
						Reset<span class="heard-only"> {record.name}</span>
					</button>
				</p>
			)}
			{wrong.map(({ key: fieldKey, problem }) => (
				<p key={`${fieldKey} ${problem}`} id={problemId(fieldKey)} class="problem">
					{problem}
				</p>
			))}
		</div>
	);
}
