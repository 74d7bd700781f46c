import { useEffect, useMemo, useRef } from 'preact/hooks';
import { type ChoiceName, choiceNames } from '../../../../shared/drive/drive.ts';
import { roundMarks } from '../../../../shared/maths/round-marks.ts';
import type { DriveWindow } from '../../../../shared/one-drive/drive-window.ts';
import { lanesOf } from '../../../../shared/one-drive/lanes.ts';
import { choiceWords } from '../../../../shared/words/names.ts';
import { eventKindsSeen, type SeenKind } from '../../model/one-drive/drive-events.ts';
import { milliseconds } from '../../model/one-drive/drive-words.ts';
import type { OneDrive } from '../../model/one-drive/one-drive.ts';
import { pictureKey } from '../../model/one-drive/picture-key.ts';
import { readout } from '../../model/one-drive/readout.ts';
import { windowTable } from '../../model/one-drive/window-table.ts';
import { SavePicture } from '../../parts/save-picture.tsx';
import { LaneFrame, LaneTraces } from './lane.tsx';
import { LaneMarks } from './lane-marks.tsx';
import { PictureKey } from './picture-key.tsx';
import { followPointers } from './pointers.ts';

/** Room to the left for scales, px. */
const gutter = 50;
/** Room below for the times, px. */
const foot = 26;

/** The drive's run against time: zoomed and scrubbed by mouse, touch and keys, stepped from event to event. */
export function Waveforms({ drive }: { drive: OneDrive }) {
	const { scope } = drive;
	const { work, window } = scope;
	if (work.value.state === 'failed')
		return <p class="problem">The run of this drive could not be drawn: {work.value.message}</p>;
	return (
		<section class="waveforms" aria-labelledby="waveforms-title">
			<header>
				<h3 id="waveforms-title">Its run</h3>
				<Controls drive={drive} />
			</header>
			<p class="event" role="status">
				{scope.isOpening.value ? 'Simulating its run …' : scope.event.value}
			</p>
			{window.value && <Run drive={drive} data={window.value} />}
		</section>
	);
}

function Run({ drive, data }: { drive: OneDrive; data: DriveWindow }) {
	const { cursor, picked, isOpening } = drive.scope;
	return (
		// what is still that of the drive before can be seen, not used
		<div class={isOpening.value ? 'of-before' : undefined} inert={isOpening.value}>
			<dl class="cursor-readout">
				{cursor.value !== null &&
					readout(data, cursor.value, picked.value).map(({ name, value }) => (
						<div key={name}>
							<dt>{name}</dt>
							<dd>{value}</dd>
						</div>
					))}
			</dl>
			<Picture drive={drive} />
			<p id="waveforms-keys" class="aside">
				Drag to move, pinch or Ctrl + wheel to zoom, point to read off. With the picture focused: ← → move the cursor
				(with Shift in larger steps), + − zoom, Page Up and Page Down step from event to event, Home shows the whole
				run.
			</p>
		</div>
	);
}

function Controls({ drive: { scope } }: { drive: OneDrive }) {
	return (
		<div class="scope-controls">
			<fieldset class="switch">
				<legend>Terminals, currents, torque and events of</legend>
				{choiceNames.map((choice) => (
					<label key={choice}>
						<input
							type="radio"
							name="scope-choice"
							checked={scope.picked.value === choice}
							onChange={() => scope.pick(choice)}
						/>
						<span>{choiceWords[choice]}</span>
					</label>
				))}
			</fieldset>
			<div class="stepper">
				<label for="step-through">Step through</label>
				<select id="step-through" onChange={(event) => scope.stepThrough(event.currentTarget.value as SeenKind)}>
					{Object.entries(eventKindsSeen).map(([kind, words]) => (
						<option key={kind} value={kind} selected={scope.stepping.value === kind}>
							{words}
						</option>
					))}
				</select>
				<button type="button" aria-label="Previous event" onClick={() => scope.step(-1)}>
					◂
				</button>
				<button type="button" aria-label="Next event" onClick={() => scope.step(1)}>
					▸
				</button>
			</div>
			<div class="zoomer">
				<button type="button" aria-label="Zoom in" onClick={() => scope.zoom(0.5)}>
					+
				</button>
				<button type="button" aria-label="Zoom out" onClick={() => scope.zoom(2)}>
					−
				</button>
				<button type="button" onClick={scope.showWhole}>
					Whole run
				</button>
			</div>
		</div>
	);
}

function Picture({ drive: { scope, before } }: { drive: OneDrive }) {
	const place = useRef<HTMLDivElement>(null);
	const data = scope.window.value;
	const picked = scope.picked.value;
	const width = Math.max(120, scope.width.value);
	const ghost = data ? before.marksAt(data.degreesPerSecond) : null;
	const noMarks = data ? before.noMarks(data.degreesPerSecond) : '';
	const key = pictureKey(gutter + width, ghost !== null);
	const head = key.height;
	const lanes = useMemo(() => (data ? lanesOf(data, picked, head) : []), [data, picked, head]);

	useEffect(() => {
		const element = place.current;
		if (!element) return;
		const watcher = new ResizeObserver(([entry]) => scope.resize((entry?.contentRect.width ?? 0) - gutter));
		watcher.observe(element);
		const unfollow = followPointers(element, scope, gutter);
		return () => {
			watcher.disconnect();
			unfollow();
		};
	}, []);

	if (!data) return null;
	const { from, to } = scope.view.value;
	const last = lanes.at(-1);
	const bottom = last ? last.top + last.height : head;
	const x = (time: number): number => ((time - from) / (to - from)) * width;
	const columnsPerPixel = ((data.to - data.from) / data.columns / (to - from)) * width;
	const cursor = scope.cursor.value;
	// a PWM period in a few pixels is a band, not a line; what was read is drawn over it where all of it is here
	const isRead = choiceNames.every((choice) => data.runs[choice].readingsLeftOut === 0);
	const isCoarse = isRead && (to - from) / width > data.period / 6;
	return (
		<>
			{/* biome-ignore lint/a11y/useSemanticElements: a picture that keys move through is no fieldset */}
			<div
				class="scope"
				ref={place}
				role="group"
				// biome-ignore lint/a11y/noNoninteractiveTabindex: keys move through it
				tabIndex={0}
				aria-label={`Waveforms from ${milliseconds(from)} to ${milliseconds(to)}`}
				aria-describedby="waveforms-keys"
				onKeyDown={(event) => {
					if (act(scope, event.key, event.shiftKey)) event.preventDefault();
				}}
			>
				<svg
					class="waveform-picture"
					viewBox={`0 0 ${gutter + width} ${bottom + foot}`}
					width={gutter + width}
					height={bottom + foot}
					aria-hidden="true"
				>
					<PictureKey entries={key.placed} />
					{lanes.map((lane) => (
						<LaneFrame key={lane.name} lane={lane} gutter={gutter} width={width} />
					))}
					<svg x={gutter} y="0" width={width} height={bottom + foot} overflow="hidden" aria-hidden="true">
						<g
							class={isCoarse ? 'coarse' : undefined}
							transform={`translate(${x(data.from)} 0) scale(${columnsPerPixel} 1)`}
						>
							<LaneTraces lanes={lanes} columns={data.columns} />
						</g>
						{choiceNames.map((choice: ChoiceName) => (
							<LaneMarks
								key={choice}
								choice={choice}
								lanes={lanes}
								data={data}
								ghost={ghost?.runs[choice].sectors ?? []}
								view={{ from, to }}
								x={x}
								width={width}
							/>
						))}
						<Times view={{ from, to }} x={x} width={width} bottom={bottom} />
						{cursor !== null && <path class="cursor" d={`M${x(cursor)} ${head + 16}V${bottom}`} />}
					</svg>
				</svg>
			</div>
			{noMarks && <p class="aside">{noMarks}</p>}
			<SavePicture
				name="waveforms"
				svg={() => place.current?.querySelector('svg') ?? null}
				table={() => windowTable(data, picked)}
			/>
		</>
	);
}

function Times({
	view,
	x,
	width,
	bottom,
}: {
	view: { from: number; to: number };
	x: (time: number) => number;
	width: number;
	bottom: number;
}) {
	const times = roundMarks(view.from, view.to, Math.max(2, Math.floor(width / 110)));
	const step = (times[1] ?? view.to) - (times[0] ?? view.from);
	const decimals = Math.max(0, Math.min(6, -Math.floor(Math.log10(step * 1e3) + 1e-9)));
	return (
		<g class="times">
			<path class="axis" d={`M0 ${bottom}H${width}`} />
			{times.map((time) => (
				<g key={time}>
					<path class="axis" d={`M${x(time)} ${bottom}v4`} />
					<text
						x={x(time)}
						y={bottom + 17}
						text-anchor={x(time) < 20 ? 'start' : x(time) > width - 40 ? 'end' : 'middle'}
					>
						{(1e3 * time).toFixed(decimals)} ms
					</text>
				</g>
			))}
		</g>
	);
}

/** Does what a key stands for; false where it stands for nothing here. */
function act(scope: OneDrive['scope'], name: string, isLarge: boolean): boolean {
	const share = isLarge ? 0.1 : 0.01;
	switch (name) {
		case 'ArrowLeft':
			scope.scrub(-share);
			return true;
		case 'ArrowRight':
			scope.scrub(share);
			return true;
		case '+':
		case '=':
			scope.zoom(0.5);
			return true;
		case '-':
		case '_':
			scope.zoom(2);
			return true;
		case 'PageDown':
			scope.step(1);
			return true;
		case 'PageUp':
			scope.step(-1);
			return true;
		case 'Home':
			scope.showWhole();
			return true;
		default:
			return false;
	}
}
