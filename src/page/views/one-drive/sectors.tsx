import type { DriveWindow, RunWindow, SectorEvents } from '../../../../shared/one-drive/drive-window.ts';
import { count, signedDegrees } from '../../../../shared/words/figures.ts';
import { choiceWords } from '../../../../shared/words/names.ts';
import { crossingWords, milliseconds } from '../../model/one-drive/drive-words.ts';
import type { OneDrive } from '../../model/one-drive/one-drive.ts';
import { Behind } from '../../parts/behind.tsx';
import { Was } from '../../parts/figure-words.tsx';

/** Every sector of the picked choice's run: the table behind the waveforms. It stays open while another run comes. */
export function Sectors({ drive }: { drive: OneDrive }) {
	const { work, window, picked, isOpening } = drive.scope;
	if (work.value.state === 'failed') return null;
	const data = window.value;
	const words = choiceWords[picked.value];
	return (
		<section class={isOpening.value ? 'drive-sectors of-before' : 'drive-sectors'} aria-labelledby="sectors-title">
			<h3 id="sectors-title">Its sectors with {words}</h3>
			{data && <Crossings drive={drive} data={data} />}
			<Behind what={`all sectors with ${words}`}>
				<table>
					<thead>
						<tr>
							<th scope="col">Sector</th>
							<th scope="col">Commutation</th>
							<th scope="col">Error</th>
							<th scope="col" class="words">
								Crossing
							</th>
						</tr>
					</thead>
					<tbody>
						{data && (
							<SectorRows
								run={data.runs[picked.value]}
								before={drive.before.sectors.value?.[picked.value] ?? null}
								was={drive.before.was}
							/>
						)}
					</tbody>
				</table>
			</Behind>
		</section>
	);
}

const firstLoopOf = ({ sectors }: RunWindow): number => (sectors[0]?.sector ?? 0) + 1;

/** How many crossings are wrong, and the first of them with a button to look at each. */
function Crossings({ drive, data }: { drive: OneDrive; data: DriveWindow }) {
	const { picked, show, point } = drive.scope;
	const run = data.runs[picked.value];
	const firstLoop = firstLoopOf(run);
	const wrong = run.sectors.filter(({ kind, sector }) => kind !== null && sector >= firstLoop);
	const sector = 60 / data.degreesPerSecond;
	return (
		<>
			<p class="aside">
				{wrong.length === 0
					? `All crossings of its ${count(run.sectors.length - 1)} sectors are in order.`
					: `${count(wrong.length)} of its ${count(run.sectors.length - 1)} crossings are false or missed.`}
				{run.lost && ' It loses lock in the last one.'}
			</p>
			{wrong.length > 0 && (
				<ul class="wrong">
					{wrong.slice(0, 8).map((events) => (
						<li key={events.sector}>
							<button
								type="button"
								onClick={() => {
									show({ from: events.begin - 0.3 * sector, to: events.commutation + 0.3 * sector });
									point(Number.isNaN(events.acceptedAt) ? events.commutation : events.acceptedAt);
								}}
							>
								Sector {count(events.sector)}
							</button>{' '}
							{crossingWords(events, firstLoop)}
						</li>
					))}
				</ul>
			)}
		</>
	);
}

interface SectorRowsProps {
	readonly run: RunWindow;
	/** Those of its drive in the baseline, by number. */
	readonly before: ReadonlyMap<number, SectorEvents> | null;
	readonly was: OneDrive['before']['was'];
}

const SectorRows = ({ run, before, was }: SectorRowsProps) => (
	<>
		{run.sectors.map((events) => (
			<tr key={events.sector}>
				<th scope="row">{count(events.sector)}</th>
				<td>{milliseconds(events.commutation)}</td>
				<td>
					{signedDegrees(events.angleError)}
					<Was
						words={before && events.sector >= firstLoopOf(run) ? inSector(before.get(events.sector), events, was) : ''}
					/>
				</td>
				<td class="words">{crossingWords(events, firstLoopOf(run))}</td>
			</tr>
		))}
	</>
);

const inSector = (
	before: SectorEvents | undefined,
	{ angleError }: SectorEvents,
	was: SectorRowsProps['was'],
): string => (before ? was(before.angleError, angleError) : 'not reached in the baseline');
