import { openPhase, risingCrossing } from '../drive/commutation-table.ts';
import type { ChoiceName, Drive } from '../drive/drive.ts';
import type { NoiseSource } from '../drive/noise.ts';
import type { PowerStage } from '../drive/power-stage/power-stage.ts';
import type { Ringing } from '../drive/ringing.ts';
import { SenseNodes } from './sense-nodes.ts';

/** What one choice's detection did in one sector. Times in s, angles in electrical degrees. */
export interface SectorStory {
	/** Counted from t = 0. */
	readonly sector: number;
	readonly begin: number;
	readonly blankedUntil: number;
	/** The reading that was accepted, and when it was acted on; NaN where none was. */
	acceptedAt: number;
	reached: number;
	/** The commutation that ended it; NaN while it lasts. */
	commutation: number;
	/** Where the open phase's EMF crosses zero, and where commutation belongs. */
	readonly trueCrossing: number;
	readonly ideal: number;
	/** Commutation-angle error; crossing error, NaN where the sector timed out. */
	angleError: number;
	crossingError: number;
}

/** States of a reading. */
export const readingStates = { blanked: 0, notCrossed: 1, crossed: 2, ignored: 3 } as const;

/** Takes one reading: its time (s), comparator inputs (V, noise, offset and ringing included), state, votes in the filter. */
export type TakeReading = (time: number, sense: number, threshold: number, state: number, votes: number) => void;

/**
 * One choice's detection, told again from the trajectory it produced so that every reading, vote and estimate can
 * be seen. It decides by the rules of shared/drive/MODEL.md on its own; tests hold it to what the run recorded.
 */
export class ReplayDetection {
	readonly stories: SectorStory[] = [];
	private readonly drive: Drive;
	private readonly noise: NoiseSource;
	private readonly choice: ChoiceName;
	private readonly take: TakeReading;
	private readonly nodes: SenseNodes;
	private readonly degreesPerSecond: number;
	private readonly intervals: number[];
	private intervalCount = 0;
	/** T60, s. */
	private estimate: number;
	/** t_z. */
	private crossing = Number.NaN;
	private readings = 0;
	private above = false;
	private votes: boolean[] = [];
	private period = -1;
	private next = 0;

	constructor(drive: Drive, noise: NoiseSource, choice: ChoiceName, take: TakeReading) {
		this.drive = drive;
		this.noise = noise;
		this.choice = choice;
		this.take = take;
		this.nodes = new SenseNodes(drive, choice);
		this.degreesPerSecond = drive.operation.speed * 6 * drive.motor.polePairs;
		this.estimate = 60 / this.degreesPerSecond;
		this.intervals = new Array<number>(drive.detection.intervalsAveraged).fill(this.estimate);
		this.open(0, 0);
	}

	/** Takes the stage's segment in hand into the story. */
	follow(stage: PowerStage, ringing: Ringing): void {
		this.readSamples(stage, ringing);
		if (stage.boundary === 'limit') this.commutate(stage.time + stage.length);
	}

	private get story(): SectorStory {
		return this.stories[this.stories.length - 1] as SectorStory;
	}

	private open(sector: number, begin: number): void {
		const { detection, motor, trial } = this.drive;
		const open = openPhase[sector % 6] as number;
		const placed = 60 + 60 * sector + (motor.placement[open] as number);
		this.stories.push({
			sector,
			begin,
			// before the last warm-up sector nothing listens
			blankedUntil: sector < trial.warmup - 1 ? Number.NaN : begin + (detection.blanking / 60) * this.estimate,
			acceptedAt: Number.NaN,
			reached: Number.NaN,
			commutation: Number.NaN,
			trueCrossing: (placed - 30) / this.degreesPerSecond,
			ideal: (60 + 60 * sector - detection.advance) / this.degreesPerSecond,
			angleError: Number.NaN,
			crossingError: Number.NaN,
		});
		this.readings = 0;
		this.votes = [];
		this.above = risingCrossing[sector % 6] === false;
	}

	private commutate(time: number): void {
		const { story, degreesPerSecond } = this;
		const { compensation, advance } = this.drive.detection;
		const { warmup } = this.drive.trial;
		const isMissed = Number.isNaN(story.reached);
		story.commutation = time;
		story.angleError = 30 + degreesPerSecond * time - (90 + 60 * story.sector - advance);
		story.crossingError = degreesPerSecond * (story.reached - compensation[this.choice] - story.trueCrossing);
		if (story.sector === warmup - 1) this.crossing = isMissed ? time - this.estimate / 2 : story.reached;
		else if (story.sector >= warmup && isMissed) this.crossing = time - this.estimate / 2;
		this.open(story.sector + 1, time);
	}

	private readSamples(stage: PowerStage, ringing: Ringing): void {
		const { detection, trial } = this.drive;
		if (stage.length <= 0 || this.story.sector < trial.warmup - 1) return;
		const onEnd = stage.carrier.onEnd();
		const { period } = stage.circuit;
		const windowStart = detection.window === 'off' ? onEnd : 0;
		const windowLength = detection.window === 'on' ? onEnd : detection.window === 'off' ? period - onEnd : period;
		if (stage.carrier.periodIndex !== this.period) {
			this.period = stage.carrier.periodIndex;
			this.next = windowLength > 0 ? 0 : detection.samples;
		}
		for (; this.next < detection.samples; this.next++) {
			const at = windowStart + ((this.next + detection.position) / detection.samples) * windowLength;
			if (at > stage.carrier.offset + stage.length) break;
			if (at > stage.carrier.offset)
				this.sample(stage, ringing, stage.carrier.periodStart + at, at - stage.carrier.offset);
		}
	}

	private sample(stage: PowerStage, ringing: Ringing, time: number, s: number): void {
		const { nodes, story, noise } = this;
		const { detection, sensing } = this.drive;
		const { sigma } = this.drive.noise;
		const kind = story.sector % 6;
		nodes.read(stage, ringing, s);
		const plain = nodes.ringingSense + (sensing.comparator.offset[openPhase[kind] as number] as number);
		const threshold = nodes.ringingThreshold;
		if (!Number.isNaN(story.acceptedAt)) {
			this.take(time, plain, threshold, readingStates.ignored, Number.NaN);
			return;
		}
		if (time < story.blankedUntil) {
			this.take(time, plain, threshold, readingStates.blanked, Number.NaN);
			return;
		}
		const sense = plain + (sigma > 0 ? sigma * noise.normal(story.sector, this.readings++) : 0);
		const x = this.input(sense) - this.input(threshold);
		const half = sensing.comparator.hysteresis / 2;
		this.above = x > half || (this.above && x > -half);
		const crossed = this.above === risingCrossing[kind];
		this.votes.push(crossed);
		const latest = this.votes.slice(-detection.majorityWindow);
		const count = latest.filter(Boolean).length;
		this.take(time, sense, threshold, crossed ? readingStates.crossed : readingStates.notCrossed, count);
		if (crossed && count >= detection.majorityVotes) this.accept(time);
	}

	/** A comparator's side as it is compared: the voltage, or the converter's code times its step. */
	private input(voltage: number): number {
		const { bits, fullScale } = this.drive.sensing.converter;
		if (bits === 0) return voltage;
		const scale = (1 << bits) / fullScale;
		return Math.min((1 << bits) - 1, Math.max(0, Math.floor(voltage * scale))) / scale;
	}

	private accept(time: number): void {
		const { story } = this;
		const { detection, sensing, trial } = this.drive;
		story.acceptedAt = time;
		const reached = time + sensing.comparator.latency;
		if (story.sector < trial.warmup) {
			// void beyond the forced commutation
			if (reached <= (60 + 60 * story.sector) / this.degreesPerSecond) story.reached = reached;
			return;
		}
		if (reached > story.begin + detection.timeout * this.estimate) return;
		story.reached = reached;
		this.intervals[this.intervalCount++ % this.intervals.length] = reached - this.crossing;
		this.crossing = reached;
		this.estimate = this.intervals.reduce((sum, one) => sum + one, 0) / this.intervals.length;
	}
}
