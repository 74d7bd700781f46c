import type { PageModel } from '../model/page-model.ts';
import { routeLink, viewNames, viewTitles } from '../model/route.ts';

/** The way to every view: plain links, so that each has an address and works by keyboard. */
export function ViewLinks({ model }: { model: PageModel }) {
	const current = model.route.view.value;
	return (
		<nav class="views" aria-label="Questions">
			<ul>
				{viewNames.map((view) => (
					<li key={view}>
						<a href={routeLink(view)} aria-current={view === current ? 'page' : undefined}>
							{viewTitles[view]}
						</a>
					</li>
				))}
			</ul>
		</nav>
	);
}
