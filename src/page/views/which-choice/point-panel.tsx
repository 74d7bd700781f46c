import { useComputed } from '@preact/signals';
import type { ComponentChildren } from 'preact';
import type { PageModel } from '../../model/page-model.ts';
import { isSimulating } from '../../model/run-status.ts';

interface PointPanelProps {
	readonly model: PageModel;
	readonly class: string;
	readonly children: ComponentChildren;
}

/** What belongs to the operating point whose tab is picked. */
export function PointPanel({ model, class: name, children }: PointPanelProps) {
	const isRenewed = useComputed(() => isSimulating(model.state.value));
	return (
		<div
			class={name}
			role="tabpanel"
			id="point-panel"
			aria-labelledby={`point-${model.whichChoice.pointIndex.value}`}
			data-renewed={isRenewed}
		>
			{children}
		</div>
	);
}
