import { useRef } from 'preact/hooks';
import type { PageModel } from '../../model/page-model.ts';
import { ChoiceMark } from '../../parts/choice-mark.tsx';

/** Operating points as tabs: arrow keys, Home and End move between them; nothing is simulated again. */
export function PointTabs({ model: { whichChoice } }: { model: PageModel }) {
	const list = useRef<HTMLDivElement>(null);
	const current = whichChoice.pointIndex.value;
	const last = whichChoice.tabs.value.length - 1;
	const targets: Readonly<Record<string, number>> = {
		ArrowRight: current === last ? 0 : current + 1,
		ArrowLeft: current === 0 ? last : current - 1,
		Home: 0,
		End: last,
	};
	return (
		<div
			ref={list}
			class="tabs"
			role="tablist"
			aria-label="Operating point"
			onKeyDown={(event) => {
				const target = targets[event.key];
				if (target === undefined) return;
				event.preventDefault();
				whichChoice.setPoint(target);
				list.current?.querySelectorAll<HTMLElement>('[role=tab]')[target]?.focus();
			}}
		>
			{whichChoice.tabs.value.map(({ name, conditions, better, verdict }, i) => (
				<button
					key={name}
					type="button"
					role="tab"
					id={`point-${i}`}
					aria-selected={i === current}
					aria-controls="point-panel"
					tabIndex={i === current ? 0 : -1}
					onClick={() => whichChoice.setPoint(i)}
				>
					<span class="name">{name}</span>
					<span class="conditions">
						{conditions.map((condition) => (
							<span key={condition}>{condition} </span>
						))}
					</span>
					<span class="verdict">
						{better && <ChoiceMark choice={better} />}
						{verdict}
					</span>
				</button>
			))}
		</div>
	);
}
