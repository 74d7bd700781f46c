import type { ChoiceName, Drive, RunRecord } from '../../shared/drive/drive.ts';
import { OdexIntegrator, type Tolerances } from './odex-integrator.ts';
import { PlainCarrier } from './plain-carrier.ts';
import { PlainDetector } from './plain-detector.ts';
import { type Edge, type Hold, type Holds, PlainEquations, sectors, work } from './plain-equations.ts';
import { startDuty, Timing, trimmedDuty } from './plain-firmware.ts';
import { gates, type Margin, settle } from './plain-inverter.ts';

export interface OdexOptions extends Partial<Tolerances> {
	/** Adds the ringing of the terminals, with each unit's own phase and no spread. */
	readonly ringing?: boolean;
	/** Keep the readings at every sampling instant of this many last sectors. */
	readonly readingSectors?: number;
	/** Times, s, ascending, at which `observe` is to be told the state. */
	readonly instants?: readonly number[];
	/** The state as plain-equations.ts lays it out. */
	readonly observe?: (time: number, state: readonly number[]) => void;
	/** Told of every diode that starts or stops by itself. */
	readonly onEvent?: (event: DiodeEvent) => void;
}

export interface DiodeEvent {
	readonly time: number;
	/** −1: two started together. */
	readonly phase: number;
	/** What the terminal is held by from then on. */
	readonly to: Hold;
}

/** What odex-run finds of a run; causes are the engine's business. */
export interface OdexRecord extends Omit<RunRecord, 'causes' | 'measured' | 'readings'> {
	readonly readings: readonly (readonly number[])[];
	/** How long the run lasted, s. */
	readonly time: number;
	/** Evaluations of the right-hand side. */
	readonly evaluations: number;
}

/**
 * One run of one drive with one sensing choice and no noise, by odex on the
 * differential equations: from gate edge, EMF corner, commutation or sample to
 * the next, with diodes started and stopped where the solution says so.
 */
export function odexRun(drive: Drive, choice: ChoiceName, options: OdexOptions = {}): OdexRecord {
	return new OdexRun(drive, choice, options).run();
}

class OdexRun {
	private readonly drive: Drive;
	private readonly choice: ChoiceName;
	private readonly options: OdexOptions;
	private readonly equations: PlainEquations;
	private readonly integrator: OdexIntegrator;
	private readonly carrier: PlainCarrier;
	private readonly detector: PlainDetector;
	private readonly readings: number[][] = [];
	private recording = false;

	private time = 0;
	private state: number[];
	private sector = 0;
	private holds: Holds = ['open', 'open', 'open'];
	private edge: Edge | null = null;
	private corner: number;
	private instant = 0;
	/** Diode events since time last went on. */
	private standing = 0;

	constructor(drive: Drive, choice: ChoiceName, options: OdexOptions) {
		const { absolute = 1e-11, relative = 1e-11, columns = 9 } = options;
		this.drive = drive;
		this.choice = choice;
		this.options = options;
		this.equations = new PlainEquations(drive);
		this.integrator = new OdexIntegrator(this.equations, { absolute, relative, columns });
		this.carrier = new PlainCarrier(drive, startDuty(drive));
		this.detector = new PlainDetector(drive, choice);
		this.state = this.equations.initial();
		this.corner = this.equations.cornerAfter(0);
	}

	run(): OdexRecord {
		const { drive, equations } = this;
		const { trial, motor, detection, sensing } = drive;
		const { warmup } = trial;
		const first = warmup + trial.settle;
		const total = first + trial.measured;
		const timing = new Timing(drive, this.choice);
		const errors: number[] = [];
		const crossings: number[] = [];
		const torques: number[] = [];
		const duties: number[] = [];
		let lost = false;
		let begin = 0;
		let warmWork = 0;
		let latest = this.carrier.nextDuty;
		let loopBegan = 0;

		for (let n = 0; n < total && !lost; n++) {
			this.sector = n;
			this.hold();
			if (n === warmup) loopBegan = begin;
			this.recording = n >= total - (this.options.readingSectors ?? 0);
			this.detector.open(n, begin + (detection.blanking / 360) * 6 * timing.sector);
			const forced = n < warmup ? (n + 1) * timing.ideal : begin + detection.timeout * timing.sector;
			let end = forced;
			let missed = true;
			const act = (at: number): void => {
				const reached = at + sensing.comparator.latency;
				if (reached > forced) return; // void
				missed = false;
				if (n < warmup) timing.warmUpAt(reached);
				else end = timing.accept(reached);
			};
			while (this.time < end) this.step(end, act);
			if (missed) {
				if (n < warmup) timing.warmUpAt(end - timing.ideal / 2);
				else timing.miss(end);
			}

			const done = this.state[work] as number;
			this.state[work] = 0;
			if (n >= warmup) warmWork += done;
			const torque = done / equations.speed / (end - begin);
			duties.push(this.carrier.duty);
			latest = this.carrier.nextDuty = trimmedDuty(drive, latest, torque);
			begin = end;
			if (n < warmup) continue;
			const error = equations.angle(end) - (90 + 60 * n - detection.advance);
			lost = Math.abs(error) > trial.lostLimit;
			if (n < first) continue;
			const { open } = sectors[n % 6] as (typeof sectors)[number];
			const believed = equations.angle(timing.crossing - detection.compensation[this.choice]);
			errors.push(error);
			crossings.push(missed ? Number.NaN : believed - (60 + 60 * n + motor.placement[open]));
			torques.push(torque);
		}
		const meanTorque = warmWork / equations.speed / (begin - loopBegan);
		return {
			errors: Float64Array.from(errors),
			crossings: Float64Array.from(crossings),
			torques: Float64Array.from(torques),
			duties: Float64Array.from(duties),
			meanTorque,
			torqueNotReached: !lost && latest >= 1 && meanTorque < 0.98 * drive.operation.torque,
			lost,
			readings: lost ? [] : this.readings,
			time: this.time,
			evaluations: equations.evaluations,
		};
	}

	/** To the nearest of gate change, EMF corner, sample that counts, observed instant, diode event and `end`. */
	private step(end: number, act: (acceptedAt: number) => void): void {
		const { carrier, options } = this;
		const sample = carrier.samples.find((time) => this.counts(time)) ?? Infinity;
		const instant = options.instants?.[this.instant] ?? Infinity;
		const change = carrier.next;
		const goal = Math.min(end, change, this.corner, sample, instant);

		if (goal > this.time) {
			const { open } = this.kind;
			const stretch = { holds: this.holds, open, edge: this.edge };
			const { time, state, event } = this.integrator.advance(this.time, this.state, goal, stretch);
			this.standing = time > this.time ? 0 : this.standing + 1;
			if (this.standing > 20) throw new Error(`diodes start and stop without end at ${time} s`);
			this.time = time;
			this.state = state;
			if (event !== null) {
				this.switchDiode(event);
				return;
			}
		}
		if (goal === instant) {
			options.observe?.(goal, this.state);
			this.instant++;
		}
		if (goal === sample) {
			if (this.recording) this.readings.push([goal, ...this.detector.nodes(this.state), ...this.state.slice(0, 3)]);
			if (this.detector.hears(goal) && this.detector.accepts(this.state)) act(goal);
		}
		if (goal === this.corner) this.corner = this.equations.cornerAfter(goal);
		if (goal === change) {
			const sign = carrier.pass();
			if (sign !== 0 && options.ringing) this.edge = { time: goal, sign, high: this.kind.high, low: this.kind.low };
			this.hold();
		}
	}

	private counts(sample: number): boolean {
		return sample > this.time && (this.recording || this.detector.hears(sample));
	}

	private get kind(): (typeof sectors)[number] {
		return sectors[this.sector % 6] as (typeof sectors)[number];
	}

	/** Takes up what the gates hold now, and the diodes that conduct with it. */
	private hold(started: Margin | null = null): void {
		const held = gates(this.sector, this.drive.inverter.chopping, this.carrier.part);
		this.holds = settle(this.equations, this.time, this.state, held, started);
	}

	/** A diode has stopped, its current then being zero to the last digit, or come to its limit. */
	private switchDiode(event: Margin): void {
		const { phase, to } = event;
		if (to === 'open' && phase >= 0) this.stop(phase);
		this.options.onEvent?.({ time: this.time, phase, to });
		this.hold(event);
	}

	/** Takes a phase's current away; what rounding leaves of Σi goes to the larger of the others, and a lone current ends too. */
	private stop(phase: number): void {
		const { state, holds } = this;
		const others = [0, 1, 2].filter((k) => k !== phase);
		state[phase] = 0;
		const [a, b] = others as [number, number];
		if (holds[a as 0] === 'open' || holds[b as 0] === 'open') {
			state[a] = state[b] = 0;
		} else {
			const half = ((state[a] as number) - (state[b] as number)) / 2;
			state[a] = half;
			state[b] = -half;
		}
	}
}
