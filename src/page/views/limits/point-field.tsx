import type { PageModel } from '../../model/page-model.ts';

interface PointFieldProps {
	readonly model: PageModel;
	readonly id: string;
	readonly label: string;
	/** Null for all points. */
	readonly value: number | null;
	readonly mayBeAll: boolean;
	readonly onChoose: (index: number | null) => void;
}

/** An operating point to be chosen, or all of them. */
export function PointField({ model, id, label, value, mayBeAll, onChoose }: PointFieldProps) {
	const points = model.scenario.value?.points ?? [];
	return (
		<div class="field">
			<label for={id}>{label}</label>
			<select
				id={id}
				onChange={(event) => {
					const { value: chosen } = event.currentTarget;
					onChoose(chosen === '' ? null : Number(chosen));
				}}
			>
				{mayBeAll && (
					<option value="" selected={value === null}>
						all operating points
					</option>
				)}
				{points.map(({ name }, index) => (
					<option key={name} value={index} selected={value === index}>
						{name}
					</option>
				))}
			</select>
		</div>
	);
}
