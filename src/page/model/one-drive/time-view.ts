/** The stretch of a run on show, s. */
export interface TimeView {
	readonly from: number;
	readonly to: number;
}

/** Nothing happens in less than this, s. */
const shortest = 2e-6;

/** The same view, moved and if need be shortened so that it lies within the run. */
export function within({ from, to }: TimeView, end: number): TimeView {
	const span = Math.min(end, Math.max(shortest, to - from));
	const start = Math.min(Math.max(0, from), end - span);
	return { from: start, to: start + span };
}

/** Zoomed by a factor (above 1 shows more) with the time `about` staying where it is. */
export function zoomed({ from, to }: TimeView, factor: number, about: number, end: number): TimeView {
	const span = Math.min(end, Math.max(shortest, (to - from) * factor));
	const share = (about - from) / (to - from);
	return within({ from: about - share * span, to: about + (1 - share) * span }, end);
}

/** Moved by a share of what is on show. */
export function moved({ from, to }: TimeView, share: number, end: number): TimeView {
	const by = share * (to - from);
	return within({ from: from + by, to: to + by }, end);
}

/** A view that has `time` in it: as it is, or moved so that `time` is in its middle. */
export function showing(view: TimeView, time: number, end: number): TimeView {
	const edge = 0.05 * (view.to - view.from);
	if (time >= view.from + edge && time <= view.to - edge) return view;
	const half = (view.to - view.from) / 2;
	return within({ from: time - half, to: time + half }, end);
}
