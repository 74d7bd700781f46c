import { computed, signal } from '@preact/signals';
import { type ChoiceName, choiceNames } from '../../../../shared/drive/drive.ts';
import type { DriveRequest } from '../../../../shared/one-drive/drive-request.ts';
import type { DriveWindow } from '../../../../shared/one-drive/drive-window.ts';
import type { DriveLab } from '../../../host/drive-lab.ts';
import { type DriveEvent, driveEvents, nextEvent, restingEvent, type SeenKind } from './drive-events.ts';
import { moved, showing, type TimeView, within, zoomed } from './time-view.ts';
import { latestWork } from './work.ts';

/** What lies to either side of the view and is worked out with it, as a share of it, so that moving shows something. */
const margin = 0.5;
/** Sectors around an event that is stepped to, where more than that is on show. */
const sectorsAround = 1.6;

/**
 * A drive's run to look into: the stretch on show, a cursor, and the traces that are simulated for it. What is on
 * show moves at once; finer traces follow when the worker has them.
 */
export function createDriveScope(lab: DriveLab) {
	const data = latestWork<DriveWindow>();
	const view = signal<TimeView>({ from: 0, to: 1 });
	const cursor = signal<number | null>(null);
	const picked = signal<ChoiceName>(choiceNames[0]);
	const stepping = signal<SeenKind>('false');
	const event = signal('');
	/** Another drive's run is on show until that of the one asked for is there. */
	const isOpening = signal(false);
	const width = signal(900);
	let request: DriveRequest | null = null;
	/** Whether the cursor was put where it is, or rests on the largest error. */
	let isPlaced = false;
	let isBusy = false;
	let isWanted = false;

	const window = computed(() => data.work.value.value);
	const end = computed(() => window.value?.end ?? 0);
	const events = computed(() => (window.value ? driveEvents(window.value, picked.value, stepping.value) : []));

	/** Asks for traces of what is on show, one answer at a time. */
	async function refine(): Promise<void> {
		const of = request;
		if (!of) return;
		// what is on show while another drive opens is not that one's
		if (isBusy || isOpening.value) {
			isWanted = true;
			return;
		}
		if (!window.value) return;
		isBusy = true;
		const { from, to } = view.value;
		const span = to - from;
		const wide = within({ from: from - margin * span, to: to + margin * span }, end.value);
		const columns = Math.max(100, Math.round((width.value * (wide.to - wide.from)) / span));
		await data.begin(() => lab.window({ drive: of, ...wide, columns }), true);
		if (request === of) await goOn();
	}

	/** Asks again where more was wanted meanwhile. */
	async function goOn(): Promise<void> {
		isBusy = false;
		if (!isWanted) return;
		isWanted = false;
		await refine();
	}

	/** Puts the cursor on the sector with the largest error, so that there is something to read from the start. */
	function rest(): void {
		const found = window.value && restingEvent(window.value, picked.value);
		isPlaced = false;
		cursor.value = found?.time ?? null;
		event.value = found?.words ?? '';
	}

	/** Where keys and buttons act: the cursor where it is in sight, else the middle of the view. */
	function inSight(): number {
		const { from, to } = view.value;
		const at = cursor.value;
		return at !== null && at >= from && at <= to ? at : (from + to) / 2;
	}

	function place(time: number): void {
		if (isOpening.value) return;
		isPlaced = true;
		cursor.value = Math.min(end.value, Math.max(0, time));
	}

	function show(next: TimeView): void {
		if (end.value <= 0 || isOpening.value) return;
		view.value = within(next, end.value);
		void refine();
	}

	return {
		work: data.work,
		window,
		view,
		cursor,
		picked,
		stepping,
		event,
		events,
		isOpening,
		/** Another drive: its whole closed loop at first. */
		async open(of: DriveRequest): Promise<void> {
			request = of;
			isWanted = false;
			isOpening.value = true;
			await data.begin(() => lab.window({ drive: of, from: 0, to: 0, columns: Math.round(width.value) }), true);
			if (request !== of) return;
			const first = window.value;
			if (first) view.value = { from: first.loopBegins, to: first.end };
			rest();
			isOpening.value = false;
			await goOn();
		},
		resize(next: number): void {
			// a picture that is not laid out yet has no width
			if (next < 100 || Math.abs(next - width.value) < 2) return;
			width.value = next;
			void refine();
		},
		width,
		showWhole: () => show({ from: window.value?.loopBegins ?? 0, to: end.value }),
		show,
		/** @param factor above 1 shows more @param about time that stays where it is, the cursor or middle if not given */
		zoom(factor: number, about?: number): void {
			show(zoomed(view.value, factor, about ?? inSight(), end.value));
		},
		move: (share: number) => show(moved(view.value, share, end.value)),
		point: place,
		/** Moves the cursor by a share of what is on show, and what is on show with it. */
		scrub(share: number): void {
			const { from, to } = view.value;
			const at = cursor.value;
			// one that rests elsewhere does not take the view along
			place((isPlaced && at !== null ? at : inSight()) + share * (to - from));
			if (cursor.value === null) return;
			const next = showing(view.value, cursor.value, end.value);
			if (next !== view.value) show(next);
		},
		/** To the next or the previous event of the kind that is stepped through. */
		step(direction: 1 | -1): DriveEvent | null {
			if (!window.value || isOpening.value) return null;
			const { from, to } = view.value;
			const start = direction > 0 ? 0 : end.value;
			const found = nextEvent(events.value, isPlaced ? (cursor.value ?? start) : start, direction);
			event.value = found?.words ?? `No ${direction > 0 ? 'further' : 'earlier'} one in this run.`;
			if (!found) return null;
			place(found.time);
			const sector = 60 / (window.value?.degreesPerSecond ?? 60);
			const half = Math.min(to - from, 2 * sectorsAround * sector) / 2;
			const isNear = to - from <= 2 * half;
			show(isNear ? showing(view.value, found.time, end.value) : { from: found.time - half, to: found.time + half });
			return found;
		},
		pick: (choice: ChoiceName) => {
			picked.value = choice;
			if (isOpening.value) return;
			if (isPlaced) event.value = '';
			else rest();
		},
		stepThrough: (kind: SeenKind) => {
			stepping.value = kind;
			if (isPlaced) event.value = '';
		},
	};
}
