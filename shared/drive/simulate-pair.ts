import { realZero } from '../maths/real-zero.ts';
import { Circuit, radian } from './circuit.ts';
import { openPhase, risingCrossing } from './commutation-table.ts';
import { CommutationTimer } from './commutation-timer.ts';
import { type ChoiceName, choiceNames, type Drive, type PairRecord, type PerChoice, type RunRecord } from './drive.ts';
import { firstDuty, trimDuty } from './duty.ts';
import { type NoiseSource, silence } from './noise.ts';
import { perChoice } from './per-choice.ts';
import { PowerStage } from './power-stage/power-stage.ts';
import { Ringing } from './ringing.ts';
import { AcceptanceChain, longestWindow } from './sensing/acceptance-chain.ts';
import { causeCode, Detector } from './sensing/detector.ts';
import type { KeptReadings } from './sensing/kept-readings.ts';
import { lookBackConstants } from './sensing/network-node.ts';
import { thresholds } from './sensing/sensing-choice.ts';

/** Most PWM periods that are run in one go before they are read. */
const longestStride = 8;

const noReaders: readonly Detector[] = [];

export interface PairOptions {
	/** Keep the readings at every sampling instant of this many last sectors. */
	readonly readingSectors?: number;
	/** Also work out, for each measured sector, the probability of an early, a late and a missed crossing. */
	readonly chances?: boolean;
	/** Also keep each choice's noise-free readings of the measured sectors; goes with `chances`. */
	readonly keep?: PerChoice<KeptReadings>;
	/** Also find, for each measured sector, where its noise-free comparator input is zero. */
	readonly interpolated?: boolean;
	/** Told of every segment just before it is taken; for tests and waveforms. */
	readonly observe?: (stage: PowerStage, choice: ChoiceName | 'warmup') => void;
}

/**
 * One run of one drive, judged with every sensing choice. The warm-up, in which
 * no choice acts yet, is simulated once and shared; then each choice closes its
 * own loop.
 *
 * @throws Error where the numbers break down (events without end); a study counts such a unit as failed
 */
export function simulatePair(drive: Drive, noise: NoiseSource, options: PairOptions = {}): PairRecord {
	bench.load(drive, noise);
	const start = bench.warmUp(drive, options);
	const records = {} as Record<ChoiceName, RunRecord>;
	for (const name of choiceNames) records[name] = bench.closeLoop(drive, name, bench.stageFor(name), start, options);
	return records;
}

/** The same run with one sensing choice alone: its record in the pair's, to the last bit. */
export function simulateChoice(
	drive: Drive,
	noise: NoiseSource,
	name: ChoiceName,
	options: PairOptions = {},
): RunRecord {
	bench.load(drive, noise);
	const start = bench.warmUp(drive, options);
	return bench.closeLoop(drive, name, bench.stageFor(name), start, options);
}

/** What the warm-up leaves to the closed loop. */
interface LoopStart {
	/** Time of the last forced commutation, s. */
	readonly commutation: number;
	/** t_z of the last warm-up sector, for each choice. */
	readonly crossing: Record<ChoiceName, number>;
	readonly duty: number;
	readonly duties: Float64Array;
}

/** Working memory of one thread, loaded with drive after drive. */
class Bench {
	readonly circuit = new Circuit();
	readonly stage = new PowerStage();
	readonly fork = new PowerStage();
	/** For what would happen had nothing been accepted. */
	readonly branch = new PowerStage();
	readonly chain = new AcceptanceChain();
	readonly ringing = new Ringing();
	readonly timer = new CommutationTimer();
	readonly detectors = perChoice((name) => new Detector(thresholds[name]()));
	private readonly ownReader = perChoice((name) => [this.detectors[name]]);
	private readonly allReaders = choiceNames.map((name) => this.detectors[name]);
	readonly branchDetectors = perChoice((name) => new Detector(thresholds[name]()));

	/** How far back a reading may reach, s. */
	private lookBack = 0;
	/** First of the segments that were kept for reading. */
	private kept = 0;
	/** What `hurry` goes towards, and before when nobody reads, s: as its arguments they would be put on the heap. */
	private limit = realZero;
	private quiet = realZero;

	load(drive: Drive, noise: NoiseSource): void {
		const { circuit } = this;
		circuit.load(drive);
		this.ringing.load(drive, noise);
		for (const name of choiceNames) {
			this.detectors[name].reset(drive, circuit, this.ringing, noise);
			this.detectors[name].record = undefined;
		}
		this.lookBack = lookBackConstants * Math.max(...circuit.nodeTau);
		// periods may be run before they are read, and gone back over
		this.stage.start(circuit, drive, firstDuty(drive), this.lookBack + (longestStride + 1) * circuit.period);
	}

	/** Commutates at the ideal angles and senses in the last sector, whose t_z begins the closed loop's first interval. */
	warmUp(drive: Drive, options: PairOptions): LoopStart {
		const { stage, detectors, circuit } = this;
		const { warmup } = drive.trial;
		const sectorTime = (60 * radian) / circuit.omega;
		const { latency } = drive.sensing.comparator;
		const crossing = {} as Record<ChoiceName, number>;
		const duties = new Float64Array(warmup);
		let duty = stage.carrier.nextDuty;
		let begin = 0;
		const blanking = (drive.detection.blanking / 360) * 6 * sectorTime;
		const quiet = (warmup - 1) * sectorTime + blanking;
		const careful = options.observe !== undefined;
		// where readings look back to hangs on every choice's parts; period by period the digits do not
		stage.regular.glides = false;
		let end = 0;
		const accept = (name: ChoiceName): void => {
			const reached = detectors[name].acceptedAt + latency;
			if (reached <= end) crossing[name] = reached; // else void
		};
		for (let n = 0; n < warmup; n++) {
			end = (n + 1) * sectorTime;
			const sensing = n === warmup - 1;
			if (sensing) {
				for (const name of choiceNames) {
					detectors[name].openSector(n, stage.kind, begin + blanking);
					crossing[name] = end - sectorTime / 2;
				}
			}
			do {
				this.limit = end;
				this.quiet = quiet;
				if (!careful && this.hurry(stage, longestStride, sensing ? this.allReaders : noReaders)) {
					if (sensing) {
						for (const name of choiceNames) if (detectors[name].scanKept(stage.history, this.kept)) accept(name);
					}
					stage.noteLimit(end);
					continue;
				}
				stage.trace(end);
				if (sensing) for (const name of choiceNames) if (detectors[name].scan(stage)) accept(name);
				options.observe?.(stage, 'warmup');
				stage.commit();
			} while (stage.boundary !== 'limit');
			duties[n] = stage.carrier.duty;
			duty = trimDuty(drive, duty, stage.work / circuit.omegaMechanical / (end - begin));
			stage.carrier.nextDuty = duty;
			stage.work = 0;
			stage.commutate();
			begin = end;
		}
		return { commutation: begin, crossing, duty, duties };
	}

	/** Where a choice goes on from the warm-up: the last one on the stage itself, the others on a copy. */
	stageFor(name: ChoiceName): PowerStage {
		if (name === choiceNames.at(-1)) return this.stage;
		this.fork.copyFrom(this.stage);
		return this.fork;
	}

	/** Runs one choice's own loop from the end of warm-up. */
	closeLoop(drive: Drive, name: ChoiceName, stage: PowerStage, start: LoopStart, options: PairOptions): RunRecord {
		const { circuit, timer } = this;
		const detector = this.detectors[name];
		const { trial, detection, motor } = drive;
		const { latency } = drive.sensing.comparator;
		const compensation = detection.compensation[name];
		const degreesPerSecond = circuit.omega / radian;
		const first = trial.warmup + trial.settle;
		const total = first + trial.measured;
		const errors = new Float64Array(trial.measured);
		const crossings = new Float64Array(trial.measured);
		const torques = new Float64Array(trial.measured);
		const causes = new Uint8Array(trial.measured);
		const duties = new Float64Array(total);
		duties.set(start.duties);
		let sectors = trial.warmup;
		const interpolated = options.interpolated ? new Float64Array(trial.measured) : undefined;
		detector.interpolating = interpolated !== undefined;
		const readings: number[][] = [];
		const chain = options.chances && detection.majorityWindow <= longestWindow ? this.chain : undefined;
		chain?.load(detection.majorityWindow, detection.majorityVotes);
		if (chain) {
			chain.sigma = drive.noise.sigma;
			chain.keep = options.keep?.[name];
			this.branchDetectors[name].reset(drive, circuit, this.ringing, silence);
		}
		const chances = chain && {
			early: new Float64Array(trial.measured),
			late: new Float64Array(trial.measured),
			missed: new Float64Array(trial.measured),
		};
		// a choice's own networks alone, so that another's parts move no digit of its run
		const tau = circuit.nodeTau;
		const own = detector.thresholdNode;
		this.lookBack =
			lookBackConstants *
			Math.max(tau[0] as number, tau[1] as number, tau[2] as number, own < 0 ? 0 : (tau[own] as number));
		stage.regular.restart();
		stage.regular.glides = true;
		timer.start(drive, circuit, compensation, start.crossing[name]);
		let begin = start.commutation;
		let duty = start.duty;
		let work = 0;
		let meanTorque = drive.operation.torque;
		let measured = 0;
		let lost = false;

		for (let n = trial.warmup; n < total; n++) {
			if (options.readingSectors !== undefined && n >= total - options.readingSectors) {
				detector.record = (time, sense, level, s) => readings.push([time, sense, level, ...stage.currentsAt(s)]);
			}
			timer.openSector(begin);
			detector.openSector(n, stage.kind, begin + timer.blanking);
			const open = openPhase[stage.kind] as number;
			const ideal = 60 + 60 * n + (motor.placement[open] as number);
			if (chain && n >= first) {
				// the reading at which the crossing error would be exactly 0
				const exact = (ideal - 30) / degreesPerSecond + compensation - latency;
				const margin = trial.falseMargin / degreesPerSecond;
				detector.chain = chain;
				const placement = (motor.placement[open] as number) / degreesPerSecond;
				chain.keep?.openSector(exact, placement, risingCrossing[stage.kind] as boolean);
				detector.openChain(exact - margin, exact + margin, timer.timeout - latency);
			}
			this.followSector(stage, detector, name, options);
			timer.closeSector();
			const { commutation } = timer;
			duties[sectors++] = stage.carrier.duty;
			work += stage.work;
			// a sector of no length has no mean of its own
			if (commutation > begin) {
				meanTorque = stage.work / circuit.omegaMechanical / (commutation - begin);
				duty = trimDuty(drive, duty, meanTorque);
			}
			const error = 30 + degreesPerSecond * commutation - (90 + 60 * n - detection.advance);
			lost = Math.abs(error) > trial.lostLimit;
			if (n >= first) {
				if (interpolated) {
					interpolated[measured] = 30 + degreesPerSecond * (detector.zeroAt + latency - compensation) - (60 + 60 * n);
				}
				if (chances) {
					if (chain.undecided && commutation < timer.timeout) this.followUnaccepted(name, stage, timer.timeout);
					chances.early[measured] = chain.early;
					chances.late[measured] = chain.late;
					chances.missed[measured] = chain.missed;
				}
				const crossingError = timer.missed
					? Number.NaN
					: 30 + degreesPerSecond * (timer.crossing - compensation) - ideal;
				errors[measured] = error;
				crossings[measured] = crossingError;
				torques[measured] = meanTorque;
				if (crossingError < -trial.falseMargin) causes[measured] = causeCode(detector.cause());
				measured++;
			}
			stage.carrier.nextDuty = duty;
			stage.work = 0;
			begin = commutation;
			if (lost) break;
			stage.commutate();
		}
		detector.record = undefined;
		detector.chain = undefined;
		detector.interpolating = false;
		if (begin > start.commutation) meanTorque = work / circuit.omegaMechanical / (begin - start.commutation);
		return {
			measured,
			errors: errors.subarray(0, measured),
			crossings: crossings.subarray(0, measured),
			torques: torques.subarray(0, measured),
			causes: causes.subarray(0, measured),
			duties: duties.subarray(0, sectors),
			meanTorque,
			torqueNotReached: !lost && duty >= 1 && meanTorque < 0.98 * drive.operation.torque,
			lost,
			...(chances && {
				chances: {
					early: chances.early.subarray(0, measured),
					late: chances.late.subarray(0, measured),
					missed: chances.missed.subarray(0, measured),
				},
			}),
			...(interpolated && { interpolated: interpolated.subarray(0, measured) }),
			...(options.readingSectors !== undefined && { readings: lost ? [] : readings }),
		};
	}

	/** Goes on to the sector's commutation, which the timer puts where the detector's crossing says. */
	private followSector(stage: PowerStage, detector: Detector, name: ChoiceName, options: PairOptions): void {
		const { timer, circuit } = this;
		const careful = options.observe !== undefined || options.readingSectors !== undefined;
		// periods to read in one go: no more than come between an acceptance and the commutation it leads to
		const readers = this.ownReader[name];
		const heed = Math.max(1, Math.min(longestStride, Math.floor(timer.wait / circuit.period) - 1));
		do {
			// the next sector's first reading looks back as well
			const next = timer.commutation + timer.blanking;
			this.quiet = detector.wanted ? Math.min(detector.readsFrom, next) : next;
			this.limit = timer.commutation;
			const most = detector.listening ? heed : 1;
			if (!careful && this.hurry(stage, most, readers)) {
				while (detector.scanKept(stage.history, this.kept)) {
					timer.accept(detector.acceptedAt);
					if (timer.commutation >= stage.time) continue;
					// commutation falls into what was just done: back to its start
					stage.rewind();
					detector.forgetNodes();
					break;
				}
				stage.noteLimit(timer.commutation);
				continue;
			}
			stage.trace(timer.commutation);
			while (detector.scan(stage)) {
				timer.accept(detector.acceptedAt);
				if (timer.missed) continue;
				if (timer.commutation < stage.time + stage.length) stage.cut(timer.commutation);
				else stage.release();
			}
			options.observe?.(stage, name);
			stage.commit();
		} while (stage.boundary !== 'limit');
	}

	/**
	 * Goes the short way towards `limit`: where nobody reads for a while, to the last end of a period before the look-back
	 * of the first reading; else over up to `most` ends of periods, kept from segment `kept` on for `readers`.
	 * @returns whether it got on; where not, the careful way does
	 */
	private hurry(stage: PowerStage, most: number, readers: readonly Detector[]): boolean {
		const { carrier, emf, history, regular } = stage;
		if (this.circuit.slowWindings) return false;
		stage.turnCorners();
		regular.until = Math.min(this.limit, emf.nextCorner);
		const lookedBackTo = this.quiet - this.lookBack;
		const unread = carrier.endsUntil(regular.until <= lookedBackTo ? Number.POSITIVE_INFINITY : lookedBackTo);
		if (unread > 0) {
			const isOn = regular.run(unread, false);
			this.kept = history.count;
			return isOn;
		}
		for (const reader of readers) if (reader.wanted) reader.enterPeriod(stage);
		stage.mark();
		this.kept = history.count;
		// what is only looked back at is gone through at once
		const ends = Math.max(most, carrier.endsUntil(this.quiet));
		return regular.run(carrier.dutyStays ? ends : 1, true);
	}

	/** Carries the sector's chain on from `stage`, as if nothing had been accepted, to the timeout. */
	private followUnaccepted(name: ChoiceName, stage: PowerStage, timeout: number): void {
		const { branch, chain } = this;
		const detector = this.branchDetectors[name];
		detector.continueChain(this.detectors[name]);
		branch.copyFrom(stage);
		do {
			branch.trace(timeout);
			detector.scan(branch);
			branch.commit();
		} while (branch.boundary !== 'limit' && chain.undecided);
	}
}

const bench = new Bench();
