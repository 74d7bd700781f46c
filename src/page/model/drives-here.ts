import { effect, type ReadonlySignal, signal } from '@preact/signals';
import type { PerChoice } from '../../../shared/drive/drive.ts';
import { perChoice } from '../../../shared/drive/per-choice.ts';
import type { DriveNear } from '../../../shared/study/drives-near.ts';
import { errorMessage } from '../../../shared/words/error-message.ts';
import { count, degrees, signedDegrees, span } from '../../../shared/words/figures.ts';
import type { RecordTicket } from '../../host/record-shelf.ts';
import type { PointOnShow } from './on-show.ts';
import { routeLink } from './route.ts';
import type { Services, Shown } from './services.ts';

/** A stretch of angle error, degrees. */
export interface Stretch {
	readonly from: number;
	readonly to: number;
}

/** The drives behind a place in the error pictures. */
type DrivesHere =
	| { readonly state: 'looking'; readonly range: string }
	| { readonly state: 'none'; readonly range: string; readonly words: string }
	| {
			readonly state: 'found';
			readonly range: string;
			readonly choices: PerChoice<readonly { readonly words: string; readonly link: string }[]>;
	  };

interface Seen {
	readonly shown: ReadonlySignal<Shown | null>;
	readonly onShow: ReadonlySignal<PointOnShow | null>;
	readonly at: ReadonlySignal<number>;
	readonly recordFor: (of: Shown) => Promise<RecordTicket | null>;
	readonly drivesNear: Services['drivesNear'];
}

/** So many drives of each choice are named. */
const most = 4;

/** Which drives make a place in the error pictures: picked by a click on it or from the table, left when other figures come. */
export function createDrivesHere({ shown, onShow, at, recordFor, drivesNear }: Seen) {
	const here = signal<DrivesHere | null>(null);
	let latest: Stretch | null = null;

	effect(() => {
		void onShow.value;
		latest = null;
		here.value = null;
	});

	return {
		here: here as ReadonlySignal<DrivesHere | null>,
		async pick(stretch: Stretch): Promise<void> {
			const { from, to } = stretch;
			const [point, range] = [at.value, span(degrees(from), degrees(to))];
			latest = stretch;
			const none = (words: string): void => {
				if (latest === stretch) here.value = { state: 'none', range, words };
			};
			if (onShow.value?.preview)
				return none('A preview is on show: its drives can be picked once the full number is run.');
			const of = shown.value;
			if (!of) return;
			here.value = { state: 'looking', range };
			try {
				const record = await recordFor(of);
				if (latest !== stretch && of.record) return;
				if (!record) return none('Their drives can be picked once the run under way is over.');
				const found = await drivesNear({ record, point }, { angle: (from + to) / 2, most });
				if (!found) return none('Run the study again to pick its drives.');
				here.value = {
					state: 'found',
					range,
					choices: perChoice((name) => found[name].map((one) => linkTo(one, point))),
				};
			} catch (error) {
				none(`The drives could not be looked up: ${errorMessage(error)}`);
			}
		},
		leave(): void {
			latest = null;
			here.value = null;
		},
	};
}

const linkTo = ({ unit, which, error }: DriveNear, point: number) => ({
	words: `drive ${count(unit)} (${which} ${signedDegrees(error)})`,
	link: routeLink('one-drive', { unit: String(unit), point: String(point) }),
});

/** A row of the pictures' data as a stretch; null for one that is none. */
export function stretchOf({ from, to }: Readonly<Record<string, unknown>>): Stretch | null {
	return typeof from === 'number' && typeof to === 'number' ? { from, to } : null;
}
