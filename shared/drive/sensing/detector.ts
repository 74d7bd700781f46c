import { realZero } from '../../maths/real-zero.ts';
import type { BackEmf } from '../back-emf.ts';
import type { Circuit } from '../circuit.ts';
import { openPhase, risingCrossing } from '../commutation-table.ts';
import { type ConductionMode, isDiode, type Tie } from '../conduction-mode.ts';
import { type Cause, causeNames, type Drive } from '../drive.ts';
import type { NoiseSource } from '../noise.ts';
import type { PowerStage } from '../power-stage/power-stage.ts';
import type { Ringing } from '../ringing.ts';
import type { SegmentHistory } from '../segment-history.ts';
import type { AcceptanceChain } from './acceptance-chain.ts';
import { Foregone } from './foregone.ts';
import { NetworkNode } from './network-node.ts';
import type { Threshold } from './threshold.ts';

/** No normal deviate is farther out, in standard deviations: they come from uniforms of 52 bits. */
const farthestDeviate = 8.3;

/** A sampling instant earlier than a segment's start by more than this (s) is not in it; less is rounding. */
const beforeSegment = 1e-12;

/**
 * The firmware's crossing detection for one sensing choice: reads the open
 * phase's comparator at the sampling instants, votes, and says when a crossing
 * is accepted and why one that proves to be early was.
 */
export class Detector {
	/** When the accepted reading was taken, s. */
	acceptedAt = realZero;
	/** Called at every sampling instant of the sectors that are recorded, with sense node and threshold, ringing included, V. */
	record: ((time: number, sense: number, threshold: number, s: number) => void) | undefined;

	/** Where set, every sector's readings are also followed as a chain of probabilities, beyond the acceptance that happened. */
	chain: AcceptanceChain | undefined;

	/** Whether the noise-free input's zero is looked for in every sector; and where it was found, s, NaN where not. */
	interpolating = false;
	zeroAt = Number.NaN;

	private readonly threshold: Threshold;
	private readonly senses = [new NetworkNode(0), new NetworkNode(1), new NetworkNode(2)];
	private drive!: Drive;
	private circuit!: Circuit;
	/** The trajectory's. */
	private emf!: BackEmf;
	private ringing!: Ringing;
	private noise!: NoiseSource;
	private noisy = false;
	private windowMask = 0;
	private codeScale = realZero;

	private sector = 0;
	private kind = 0;
	private phase = 0;
	private rising = false;
	private blankedUntil = realZero;
	/** Whether the sector's crossing is still to be accepted. */
	listening = false;
	/** Of the chain: acceptances before the first time are early, after the second late, after the third none (s). */
	private earlyBefore = realZero;
	private lateAfter = realZero;
	private closedAfter = realZero;
	/** The noise-free input (V) and time (s) of the reading before, while its zero is sought. */
	private lastInput = Number.NaN;
	private lastTime = realZero;
	/** When the present reading is taken, s. */
	private time = realZero;
	/** Readings since blanking ended, in this sector. */
	private readings = 0;
	private above = false;
	private cleanAbove = false;
	/** Latest votes for "crossed" as bits, newest lowest: as read; without noise and ringing; read while the diode conducted. */
	private votes = 0;
	private cleanVotes = 0;
	private freewheelVotes = 0;
	private readonly foregone = new Foregone();
	/** Readings of the PWM periods up to this one are foregone: not taken. */
	private passedOver = -1;
	/** When readings begin, or go on, s. */
	readsFrom = realZero;
	/** Sampling instants of the PWM period at hand. */
	private period = -1;
	/** Whether the periods after it have its duty. */
	private dutyStays = false;
	private carrierPhase = realZero;
	private periodStart = realZero;
	private next = 0;
	/** Segment up to which `scanKept` has come. */
	private kept = 0;
	/** Offset of the next one in the period, s. */
	private nextAt = realZero;
	private windowStart = realZero;
	private windowLength = realZero;

	constructor(threshold: Threshold) {
		this.threshold = threshold;
	}

	reset(drive: Drive, circuit: Circuit, ringing: Ringing, noise: NoiseSource): void {
		this.drive = drive;
		this.circuit = circuit;
		this.ringing = ringing;
		this.noise = noise;
		this.noisy = drive.noise.sigma > 0 || ringing.amplitude !== 0;
		this.windowMask = (1 << drive.detection.majorityWindow) - 1;
		const { bits, fullScale } = drive.sensing.converter;
		this.codeScale = bits > 0 ? (1 << bits) / fullScale : 0;
		this.threshold.reset(drive, circuit);
		for (const sense of this.senses) sense.reset();
		this.foregone.reset(drive, circuit, ringing, this.threshold);
		this.passedOver = -1;
		this.period = -1;
		this.kept = 0;
		this.carrierPhase = drive.operation.pwmPhase;
		this.chain = undefined;
		this.interpolating = false;
	}

	/** A sector has begun: samples before `blankedUntil` (s) are ignored and leave the filter clear. */
	openSector(sector: number, kind: number, blankedUntil: number): void {
		this.sector = sector;
		this.kind = kind;
		this.phase = openPhase[kind] as number;
		this.rising = risingCrossing[kind] as boolean;
		this.blankedUntil = this.readsFrom = blankedUntil;
		this.listening = true;
		this.readings = 0;
		this.zeroAt = this.lastInput = Number.NaN;
		this.above = this.cleanAbove = !this.rising; // "not crossed"
		this.votes = this.cleanVotes = this.freewheelVotes = 0;
		this.foregone.openSector();
		this.passedOver = -1;
	}

	/** The chain's sector: readings before `earlyBefore` would be early, after `lateAfter` late, after `closedAfter` void (s). */
	openChain(earlyBefore: number, lateAfter: number, closedAfter: number): void {
		this.chain?.open();
		this.earlyBefore = earlyBefore;
		this.lateAfter = lateAfter;
		this.closedAfter = closedAfter;
	}

	/** Goes on with `other`'s chain and sector on another trajectory, without accepting. */
	continueChain(other: Detector): void {
		this.chain = other.chain;
		this.sector = other.sector;
		this.phase = other.phase;
		this.rising = other.rising;
		this.blankedUntil = other.blankedUntil;
		this.earlyBefore = other.earlyBefore;
		this.lateAfter = other.lateAfter;
		this.closedAfter = other.closedAfter;
		this.listening = false;
		this.passedOver = -1;
		this.period = -1;
		this.forgetNodes();
	}

	/** The network on the terminals that the threshold reads, −1 where it reads none. */
	get thresholdNode(): number {
		return this.threshold.node;
	}

	/** Whether any reading of this sector is still of use. */
	get wanted(): boolean {
		return this.listening || this.record !== undefined || this.seeking || this.chain?.undecided === true;
	}

	/** Gets the sampling instants of the stage's present PWM period. */
	enterPeriod(stage: PowerStage): void {
		// readings taken stay taken, also where the trajectory went back
		if (stage.carrier.periodIndex <= this.period) return;
		const onEnd = stage.carrier.onEnd();
		const { period } = this.circuit;
		const { window } = this.drive.detection;
		this.windowStart = window === 'off' ? onEnd : 0;
		this.windowLength = window === 'on' ? onEnd : window === 'off' ? period - onEnd : period;
		this.emf = stage.emf;
		this.period = stage.carrier.periodIndex - 1;
		this.dutyStays = stage.carrier.duty === stage.carrier.nextDuty;
		this.periodAfter();
	}

	/** The sampling instants of the next PWM period, at the same duty. */
	private periodAfter(): void {
		const { samples, position } = this.drive.detection;
		this.period++;
		this.periodStart = (this.period - this.carrierPhase) * this.circuit.period;
		this.next = this.windowLength > 0 ? 0 : samples; // no window, no samples
		this.nextAt = this.windowStart + ((this.next + position) / samples) * this.windowLength;
		this.foregone.openPeriod();
	}

	/**
	 * Reads the samples within the stage's segment in hand; true at one that accepts a crossing. The caller
	 * decides what follows from it, shortens the segment if need be, and scans on.
	 */
	scan(stage: PowerStage): boolean {
		// a segment of no length is not in the history
		if (!this.wanted || stage.length === 0 || stage.carrier.periodIndex < this.period) return false;
		this.enterPeriod(stage);
		return this.scanSegment(stage.history, stage.history.count);
	}

	/** The same for the segments `from` …, all taken, from the present period on. */
	scanKept(history: SegmentHistory, from: number): boolean {
		const { period } = this.circuit;
		const { samples } = this.drive.detection;
		const { count } = history;
		if (!this.wanted) return false;
		for (let index = Math.max(from, this.kept); index < count; index++) {
			const { start, length } = history.at(index);
			// what rounding left of a period would be taken for the next one
			if (length < beforeSegment) continue;
			if (start > this.periodStart + period - beforeSegment) this.periodAfter();
			// most segments hold no sampling instant
			if (this.next >= samples || this.nextAt > start - this.periodStart + length) continue;
			this.kept = index;
			if (this.scanSegment(history, index)) return true;
			if (!this.wanted) return false;
		}
		return false;
	}

	/** The trajectory's last segments are taken back: what was worked out on them is not to be built on. */
	forgetNodes(): void {
		this.kept = 0;
		for (const sense of this.senses) sense.reset();
		this.threshold.rewind();
	}

	private scanSegment(history: SegmentHistory, index: number): boolean {
		const { record, chain } = this;
		const { start, length, mode } = history.at(index);
		const offset = start - this.periodStart;
		const { samples, position } = this.drive.detection;
		if (this.period <= this.passedOver) return false;
		while (this.next < samples) {
			const at = this.nextAt;
			if (at > offset + length) break;
			this.next++;
			this.nextAt = this.windowStart + ((this.next + position) / samples) * this.windowLength;
			if (at < offset - beforeSegment) continue;
			const time = this.periodStart + at;
			const unblanked = time >= this.blankedUntil;
			const heard = this.listening && unblanked;
			const chained = chain?.undecided === true && unblanked && time <= this.closedAfter;
			const sought = this.seeking && unblanked;
			if (!heard && !chained && !sought && !record) continue;
			const s = at - offset;
			const sense = this.senses[this.phase] as NetworkNode;
			history.point.goTo(this.circuit, index, s);
			sense.read(history, this.circuit, this.ringing);
			this.threshold.read(history, this.circuit, this.ringing);
			record?.(time, sense.value + sense.ringing, this.threshold.value + this.threshold.ringing, s);
			this.time = time;
			if (chained) this.follow(chain, sense);
			if (sought) this.interpolate(sense);
			if (heard && this.vote(mode, sense)) {
				this.acceptedAt = time;
				this.listening = false;
				return true;
			}
			if (heard && this.foregone.passable && this.dutyStays) {
				this.foregone.since = s;
				this.lookAhead(mode);
			}
		}
		return false;
	}

	/** Why the latest acceptance, if it was early, was early. */
	cause(): Cause {
		if ((this.freewheelVotes & this.windowMask) !== 0) return 'freewheel';
		return this.noisy && !this.majority(this.cleanVotes) ? 'noise' : 'threshold';
	}

	/** Passes over readings to come that cannot be anything but "not crossed". */
	private lookAhead(mode: ConductionMode): void {
		const { foregone } = this;
		foregone.take(conducts(mode, this.phase));
		const { samples } = this.drive.detection;
		if (this.next < samples || this.record !== undefined || this.seeking) return;
		const periodsLeft = (this.emf.nextCorner - this.periodStart) / this.circuit.period - 1;
		const periods = foregone.periods(this.emf, this.kind, Math.floor(periodsLeft - 1e-9));
		if (periods <= 0 || ((this.votes | this.cleanVotes) & this.windowMask) !== 0) return;
		if (this.chain?.undecided === true && !this.chain.settled) return;
		this.passedOver = this.period + periods;
		this.readsFrom = (this.passedOver + 1 - this.carrierPhase) * this.circuit.period;
		this.readings += periods * samples;
	}

	private get seeking(): boolean {
		return this.interpolating && Number.isNaN(this.zeroAt);
	}

	/** Looks for the zero of the noise-free input between this reading and the one before, on a straight line. */
	private interpolate(sense: NetworkNode): void {
		const { time } = this;
		const input = sense.value + (this.drive.sensing.comparator.offset[this.phase] as number) - this.threshold.value;
		const { lastInput, lastTime } = this;
		const crossed = input > 0 === this.rising;
		if (crossed && lastInput > 0 !== this.rising && !Number.isNaN(lastInput)) {
			this.zeroAt = lastTime + ((time - lastTime) * lastInput) / (lastInput - input);
		}
		this.lastInput = input;
		this.lastTime = time;
	}

	/** Takes one reading into the chain. */
	private follow(chain: AcceptanceChain, sense: NetworkNode): void {
		const { time } = this;
		const { hysteresis, offset } = this.drive.sensing.comparator;
		const half = hysteresis / 2;
		const sensed = sense.value + sense.ringing + (offset[this.phase] as number);
		const level = this.threshold.value + this.threshold.ringing;
		if (this.codeScale === 0) {
			chain.up = level + half - sensed;
			chain.stay = level - half - sensed;
		} else {
			chain.up = this.codedMargin(sensed, level, half);
			chain.stay = this.codedMargin(sensed, level, -half);
		}
		chain.keep?.add(time, chain.up, chain.stay);
		chain.weigh(this.rising);
		chain.step(time < this.earlyBefore ? -1 : time > this.lateAfter ? 1 : 0);
	}

	/** Noise (V) from which on the difference of the converter's codes exceeds `limit` (V). */
	private codedMargin(sensed: number, level: number, limit: number): number {
		const { codeScale } = this;
		const code = this.code(level) + Math.floor(limit * codeScale) + 1;
		if (code <= 0) return -Infinity;
		if (code > codeScale * this.drive.sensing.converter.fullScale - 1) return Infinity;
		return code / codeScale - sensed;
	}

	/** Takes one reading into the filter; true when the majority is reached. */
	private vote(mode: ConductionMode, sense: NetworkNode): boolean {
		const { comparator } = this.drive.sensing;
		const half = comparator.hysteresis / 2;
		const sensed = sense.value + (comparator.offset[this.phase] as number);
		const level = this.threshold.value;
		const input = this.difference(sensed, level);
		this.foregone.distance = this.rising ? -input : input;
		const reading = this.readings++;
		if (this.noisy) {
			const { sigma } = this.drive.noise;
			const ringingLevel = level + this.threshold.ringing;
			let disturbed = sensed + sense.ringing;
			// where no deviate can tip the comparator, none is drawn: each is a function of its reading alone
			if (sigma > 0 && !(this.codeScale === 0 && Math.abs(disturbed - ringingLevel) - half > farthestDeviate * sigma)) {
				disturbed += sigma * this.noise.normal(this.sector, reading);
			}
			this.above = compare(this.difference(disturbed, ringingLevel), half, this.above);
			this.cleanAbove = compare(input, half, this.cleanAbove);
		} else {
			this.above = this.cleanAbove = compare(input, half, this.above);
		}
		const crossed = this.above === this.rising;
		this.votes = (this.votes << 1) | (crossed ? 1 : 0);
		this.cleanVotes = (this.cleanVotes << 1) | (this.cleanAbove === this.rising ? 1 : 0);
		this.freewheelVotes = (this.freewheelVotes << 1) | (crossed && conducts(mode, this.phase) ? 1 : 0);
		return crossed && this.majority(this.votes);
	}

	/** Comparator input, V: the plain difference, or that of the converter's codes. */
	private difference(sense: number, level: number): number {
		const { codeScale } = this;
		if (codeScale === 0) return sense - level;
		return (this.code(sense) - this.code(level)) / codeScale;
	}

	private code(voltage: number): number {
		const top = this.codeScale * this.drive.sensing.converter.fullScale - 1;
		return Math.min(top, Math.max(0, Math.floor(voltage * this.codeScale)));
	}

	/** At least K of the last W votes (of those there are, while fewer). */
	private majority(votes: number): boolean {
		let bits = votes & this.windowMask;
		let count = 0;
		for (; bits !== 0; bits &= bits - 1) count++;
		return count >= this.drive.detection.majorityVotes;
	}
}

/** Whether a diode of phase k carries current. */
const conducts = (mode: ConductionMode, k: number): boolean => isDiode(mode.ties[k] as Tie);

/** Comparator with hysteresis ±half: above when x > +half, not above when x ≤ −half, else as it was. */
function compare(x: number, half: number, was: boolean): boolean {
	return x > half || (was && x > -half);
}

/** Code of a cause in RunRecord.causes. */
export const causeCode = (cause: Cause): number => 1 + causeNames.indexOf(cause);
