import { count } from '../../../shared/words/figures.ts';
import type { PageModel } from '../model/page-model.ts';
import { routeLink } from '../model/route.ts';

/** The result that others are held against: pinned, replaced or let go. */
export function BaselineBar({ model }: { model: PageModel }) {
	const { baseline, canPin, isBaseline, pin, unpin } = model.against;
	const pinned = baseline.value;
	if (!model.shown.value) return null;
	return (
		<section class="baseline-bar controls" aria-label="Baseline">
			{pinned ? (
				<p>
					Baseline: {pinned.shown.scenario.name}, {count(pinned.shown.units)} drives, seed {pinned.shown.seed}
					{isBaseline.value && ' (on show)'}
				</p>
			) : (
				<p>Pin these figures, then edit an input: every view shows what changed.</p>
			)}
			{pinned && !isBaseline.value && <a href={routeLink('what-changed')}>What changed, and why</a>}
			{(canPin.value || !pinned) && (
				<button type="button" class="quiet" disabled={!canPin.value} onClick={pin}>
					{pinned ? 'Pin these instead' : 'Pin as baseline'}
				</button>
			)}
			{pinned && (
				<button type="button" class="quiet" onClick={unpin}>
					Unpin
				</button>
			)}
		</section>
	);
}
