import { useEffect, useRef, useState } from 'preact/hooks';
import type { PageModel } from '../model/page-model.ts';
import type { ViewName } from '../model/route.ts';
import { type View, viewList } from './view-list.ts';

/** The view that the address names, loaded if it is not here yet. */
export function CurrentView({ model }: { model: PageModel }) {
	const name = model.route.view.value;
	const [loaded, setLoaded] = useState<Partial<Record<ViewName, View>>>({});
	const [problem, setProblem] = useState('');
	const place = useRef<HTMLDivElement>(null);
	const isFirst = useRef(true);
	const entry = viewList[name];
	const View = 'here' in entry ? entry.here : loaded[name];

	useEffect(() => {
		setProblem('');
		if ('load' in entry && !loaded[name]) {
			entry.load().then(
				(view) => setLoaded((before) => ({ ...before, [name]: view })),
				(error: unknown) =>
					setProblem(`This view could not be loaded: ${String(error)}. Reload the page to try again.`),
			);
		}
		// whoever followed a link inside the view that is left would otherwise be nowhere
		const { activeElement } = document;
		if (!isFirst.current && (activeElement === document.body || activeElement === null)) place.current?.focus();
		isFirst.current = false;
	}, [name]);

	return (
		<div class={`view ${name}`} ref={place} tabIndex={-1}>
			{problem && (
				<p class="problem" role="alert">
					{problem}
				</p>
			)}
			{View ? <View model={model} /> : !problem && <p class="waiting">Loading …</p>}
		</div>
	);
}
