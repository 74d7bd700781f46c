/** Phases a, b, c. */
export type Phases = readonly [number, number, number];

export type Chopping = 'high-side' | 'low-side' | 'complementary' | 'both';
export type SamplingWindow = 'on' | 'off' | 'whole';

/** The sensing choices that are compared, in the order of every column and list. */
export const choiceNames = ['halfBus', 'virtualNeutral'] as const;
export type ChoiceName = (typeof choiceNames)[number];
export type PerChoice<T> = Readonly<Record<ChoiceName, T>>;

/**
 * One built unit at one start of one operating point: every number the model
 * needs, deviations and temperature applied. SI units; electrical angles in
 * degrees; speed in rev/min; phases of carrier, ripple and ring from 0 to 1.
 */
export interface Drive {
	readonly motor: {
		readonly polePairs: number;
		readonly sinusoidal: boolean;
		readonly phaseResistance: Phases;
		readonly phaseInductance: Phases;
		readonly emfConstant: Phases;
		readonly flatTop: number;
		readonly placement: Phases;
	};
	readonly inverter: {
		readonly pwmFrequency: number;
		readonly chopping: Chopping;
		readonly deadTime: number;
		readonly switchResistance: number;
		readonly diodeDrop: number;
		readonly shuntResistance: number;
	};
	readonly supply: {
		readonly voltage: number;
		readonly rippleAmplitude: number;
		readonly rippleFrequency: number;
		/** 0…1 of a turn: φ_r / 2π at t = 0. */
		readonly ripplePhase: number;
	};
	readonly operation: { readonly speed: number; readonly torque: number; readonly pwmPhase: number };
	readonly sensing: {
		readonly divider: { readonly top: Phases; readonly bottom: Phases; readonly capacitor: Phases };
		readonly halfBus: { readonly top: number; readonly bottom: number; readonly capacitor: number };
		readonly virtualNeutral: { readonly star: Phases; readonly ground: number; readonly capacitor: number };
		readonly comparator: { readonly offset: Phases; readonly hysteresis: number; readonly latency: number };
		/** bits 0: no converter. */
		readonly converter: { readonly bits: number; readonly fullScale: number };
	};
	readonly detection: {
		readonly window: SamplingWindow;
		readonly samples: number;
		readonly position: number;
		readonly majorityWindow: number;
		readonly majorityVotes: number;
		readonly blanking: number;
		readonly intervalsAveraged: number;
		readonly advance: number;
		/** Seconds that the firmware subtracts, for each choice. */
		readonly compensation: PerChoice<number>;
		readonly timeout: number;
	};
	readonly noise: {
		readonly sigma: number;
		readonly ringAmplitude: number;
		readonly ringFrequency: number;
		readonly ringDecay: number;
		readonly ringCoupling: number;
		readonly ringPhase: number;
		readonly ringPhaseSpread: number;
	};
	readonly trial: {
		readonly warmup: number;
		readonly settle: number;
		readonly measured: number;
		readonly falseMargin: number;
		readonly lostLimit: number;
	};
}

/** Why an early false crossing was taken. */
export const causeNames = ['freewheel', 'noise', 'threshold'] as const;
export type Cause = (typeof causeNames)[number];

/** What one choice's run did. Lists are over measured sectors; a lost run's end with the sector that lost it. */
export interface RunRecord {
	/** Sectors commutated after warm-up and settling; length of the lists below. */
	readonly measured: number;
	/** Commutation-angle errors, electrical degrees, positive late. */
	readonly errors: Float64Array;
	/** Crossing errors, electrical degrees; NaN where the sector timed out. */
	readonly crossings: Float64Array;
	/** Mean torque over each measured sector, N·m. */
	readonly torques: Float64Array;
	/** For each measured sector 0, or 1 + index into causeNames where an early false crossing was taken. */
	readonly causes: Uint8Array;
	/** Duty in effect at the commutation that ends each sector, from sector 0 on. */
	readonly duties: Float64Array;
	/** Mean torque from the end of warm-up, N·m. */
	readonly meanTorque: number;
	readonly torqueNotReached: boolean;
	readonly lost: boolean;
	/**
	 * Where asked for: for each measured sector the angle error (degrees) of a commutation timed from the zero of
	 * the noise-free comparator input, on a straight line between the readings before and after it: a smooth
	 * figure, free of sampling. NaN where no reading before it was on the other side.
	 */
	readonly interpolated?: Float64Array;
	/**
	 * Where asked for: for each measured sector the probability of an early false, a late and a missed
	 * crossing, given all that happened before it; absent where the majority window is too long to follow.
	 */
	readonly chances?: { readonly early: Float64Array; readonly late: Float64Array; readonly missed: Float64Array };
	/**
	 * Where asked for: [time s, sense node V without offset, threshold V, i_a, i_b, i_c A], ringing included, at
	 * every sampling instant of the last sectors; empty for a lost run.
	 */
	readonly readings?: readonly (readonly number[])[];
}

export type PairRecord = PerChoice<RunRecord>;
