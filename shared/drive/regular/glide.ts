import { decayInPlace } from '../../maths/decay.ts';
import { realZero } from '../../maths/real-zero.ts';
import { turnInPlace } from '../../maths/turn.ts';
import type { Circuit } from '../circuit.ts';
import { highDiode, lowDiode, open } from '../conduction-mode.ts';
import { mostParts } from '../power-stage/pwm-carrier.ts';
import { type Lane, type LaneTable, margin, setFull } from './lane-table.ts';
import type { PeriodState } from './period-state.ts';

/** What is needed of the short way (regular-periods.ts). */
interface Frame {
	readonly circuit: Circuit;
	readonly table: LaneTable;
	/** Counts the changes of sector, duty and pieces of back-EMF. */
	readonly version: number;
	readonly parts: number;
	readonly lengths: Float64Array;
	readonly turnsRe: Float64Array;
	readonly turnsIm: Float64Array;
	readonly highTies: Int8Array;
	readonly lowTies: Int8Array;
}

/** Fewer periods than this are sooner gone through one by one. */
export const shortestGlide = 4;

/**
 * Many PWM periods at once, in closed form, where two phases conduct all the
 * time and the open terminal stays between the rails. From the modal current y
 * and the ripple's phasor z at a period's start, part p begins with
 *
 *   y_p = κ_p + Im(μ_p z) + ν_p y
 *
 * so that the n-th period begins with y_n = A + Im(Γ z_n) + D Fⁿ, and sums over
 * periods are geometric series. What must hold in every period (no diode stops,
 * no open terminal reaches a rail) is looked at in the first and the last, with
 * an allowance for how far anything between them may leave the straight line.
 */
export class Glide {
	private version = -1;
	private possible = false;
	private readonly lanes: Lane[] = [];
	/** κ, μ, ν, the ripple's turn since the period's start and the time (s), at the start of every part and the period's end. */
	private readonly kappa = new Float64Array(mostParts + 1);
	private readonly muRe = new Float64Array(mostParts + 1);
	private readonly muIm = new Float64Array(mostParts + 1);
	private readonly nu = new Float64Array(mostParts + 1);
	private readonly turnRe = new Float64Array(mostParts + 1);
	private readonly turnIm = new Float64Array(mostParts + 1);
	private readonly times = new Float64Array(mostParts + 1);
	/** A, Γ, and Σ λ·length over a period. */
	private settled = realZero;
	private gammaRe = realZero;
	private gammaIm = realZero;
	private fading = realZero;
	/** A period's work, J: constant, and weights of z and y at its start. */
	private workConstant = realZero;
	private workRe = realZero;
	private workIm = realZero;
	private workY = realZero;
	/** Fᴺ and its place for the ripple's turn over N periods. */
	private readonly cells = new Float64Array(3);
	/** Of a period looked at: y, z and x (lane-table.ts) at its start; and allowances for y and z. */
	private y = realZero;
	private zRe = realZero;
	private zIm = realZero;
	private x = realZero;
	private slackY = realZero;
	private slackZ = realZero;
	/** Least distance of what is watched from where the period would be another kind, V. */
	private nearest = realZero;

	/**
	 * Goes over up to `most` whole periods, as far as it may.
	 * @param state at the start; its currents, ripple phasor and work are brought to where it ends
	 * @returns periods gone over
	 */
	run(frame: Frame, state: PeriodState, most: number): number {
		const { lanes, cells } = this;
		const { circuit, parts } = frame;
		for (let part = 0; part < parts; part++) {
			const lane = laneOf(frame, part);
			// the current has had gaps lately
			if (lane === null || lane.lastStop !== 0) return 0;
			lanes[part] = lane;
		}
		if (frame.version !== this.version) this.prepare(frame);
		if (!this.possible) return 0;
		const { first } = lanes[0] as Lane;
		const { zRe, zIm, x: start } = state;
		const y = first.fromHigh * state.high + first.fromLow * state.low;
		const d = y - this.settled - this.gammaRe * zIm - this.gammaIm * zRe;
		const turn = circuit.rippleAmplitude === 0 ? 0 : circuit.rippleOmega * circuit.period;
		const fade = this.nu[parts] as number;

		let count = turn > 0 ? Math.min(most, Math.floor(1 / turn)) : most;
		for (let tries = 0; tries < 3 && count >= shortestGlide; tries++) {
			cells[0] = count * this.fading;
			decayInPlace(cells, 0);
			cells[1] = count * turn;
			turnInPlace(cells, 1);
			const faded = cells[0] as number;
			const c = cells[1] as number;
			const s = cells[2] as number;
			const zReEnd = zRe * c - zIm * s;
			const zImEnd = zRe * s + zIm * c;
			// a sinusoid leaves its chord by at most an eighth of the square of its turn
			this.slackZ = (count * turn * count * turn) / 8;
			this.slackY = Math.abs(d) * (1 - faded);
			this.y = y;
			this.zRe = zRe;
			this.zIm = zIm;
			this.x = start;
			this.look(frame);
			const before = this.nearest;
			if (before < 0) {
				count >>= 2;
				continue;
			}
			// the last period starts one turn and one decay before the end
			const turnedRe = this.turnRe[parts] as number;
			const turnedIm = this.turnIm[parts] as number;
			this.zRe = zReEnd * turnedRe + zImEnd * turnedIm;
			this.zIm = zImEnd * turnedRe - zReEnd * turnedIm;
			this.y = this.settled + this.gammaRe * this.zIm + this.gammaIm * this.zRe + (d * faded) / fade;
			this.x = start + circuit.period * (count - 1);
			this.look(frame);
			if (this.nearest < 0) {
				// about so far it holds
				count = Math.floor(0.95 * count * (before / (before - this.nearest)));
				continue;
			}

			const yEnd = this.settled + this.gammaRe * zImEnd + this.gammaIm * zReEnd + d * faded;
			// Σ z_n = z (1 − q^N)/(1 − q), Σ y_n
			let sumRe = 0;
			let sumIm = 0;
			if (turn > 0) {
				const re = 1 - turnedRe;
				const scale = 1 / (re * re + turnedIm * turnedIm);
				const dRe = zRe - zReEnd;
				const dIm = zIm - zImEnd;
				sumRe = (dRe * re - dIm * turnedIm) * scale;
				sumIm = (dIm * re + dRe * turnedIm) * scale;
			}
			const sumY = count * this.settled + this.gammaRe * sumIm + this.gammaIm * sumRe + (d * (1 - faded)) / (1 - fade);
			state.high = first.toHigh * yEnd;
			state.low = first.toLow * yEnd;
			state.zRe = zReEnd;
			state.zIm = zImEnd;
			state.work =
				state.work + count * this.workConstant + this.workRe * sumRe + this.workIm * sumIm + this.workY * sumY;
			return count;
		}
		return 0;
	}

	/** Sets `nearest` for the period whose start is given: volts from the margin at the rails, at most 1; below 0 where a current might stop. */
	private look(frame: Frame): void {
		const { lanes, kappa, muRe, muIm, nu, turnRe, turnIm, times, y, zRe, zIm, x } = this;
		const { circuit, parts } = frame;
		const { rippleAmplitude: amplitude, diodeDrop } = circuit;
		const top = circuit.voltage + diodeDrop;
		const gamma = Math.abs(this.gammaRe) + Math.abs(this.gammaIm);
		let nearest = 1;
		for (let part = 0; part < parts; part++) {
			const lane = lanes[part] as Lane;
			const open = lane.terminal;
			const rippleStar = lane.neutralRipple * amplitude;
			const modalStar = lane.neutralModal;
			const rail = lane.lowRail;
			for (let end = part; end < part + 2; end++) {
				const c = turnRe[end] as number;
				const s = turnIm[end] as number;
				const ripple = zRe * s + zIm * c;
				const mu = Math.abs(muRe[end] as number) + Math.abs(muIm[end] as number);
				const current =
					(kappa[end] as number) + (muRe[end] as number) * zIm + (muIm[end] as number) * zRe + (nu[end] as number) * y;
				const slackY = this.slackY + (gamma + mu) * this.slackZ;
				if (lane.diodeCount > 0) {
					const flows = lane.first.toHigh > 0 ? current : -current;
					if (!(flows > slackY)) {
						this.nearest = -1;
						return;
					}
				}
				const terminal =
					open.level + open.rate * (x + (times[end] as number)) + rippleStar * ripple + modalStar * current;
				const allowed = margin + Math.abs(modalStar) * slackY;
				nearest = Math.min(
					nearest,
					top + amplitude * ripple - terminal - allowed - Math.abs(amplitude - rippleStar) * this.slackZ,
					terminal -
						rail * current +
						diodeDrop -
						allowed -
						Math.abs(rail) * slackY -
						Math.abs(rippleStar) * this.slackZ,
				);
			}
		}
		this.nearest = nearest;
	}

	/** Works out everything that stays put while sector, duty and pieces of back-EMF do. */
	private prepare(frame: Frame): void {
		this.version = frame.version;
		this.possible = false;
		const { circuit, parts, lengths } = frame;
		const { lanes, kappa, muRe, muIm, nu, turnRe, turnIm, times } = this;
		const rippleTime = circuit.rippleAmplitude === 0 ? 0 : circuit.rippleAmplitude / circuit.rippleOmega;
		kappa[0] = muRe[0] = muIm[0] = turnIm[0] = times[0] = 0;
		nu[0] = turnRe[0] = 1;
		this.fading = this.workConstant = this.workRe = this.workIm = this.workY = 0;
		for (let part = 0; part < parts; part++) {
			const { first } = lanes[part] as Lane;
			// a driven phase off its flat
			if (first.tilt !== 0) return;
			const length = lengths[part] as number;
			(lanes[part] as Lane).length = length;
			setFull(lanes[part] as Lane);
			const a = first.constant;
			const f = first.full;
			const gRe = first.gainRe;
			const gIm = first.gainIm;
			const c = turnRe[part] as number;
			const s = turnIm[part] as number;
			const cNext = c * (frame.turnsRe[part] as number) - s * (frame.turnsIm[part] as number);
			const sNext = c * (frame.turnsIm[part] as number) + s * (frame.turnsRe[part] as number);
			turnRe[part + 1] = cNext;
			turnIm[part + 1] = sNext;
			times[part + 1] = (times[part] as number) + length;
			kappa[part + 1] = a + f * ((kappa[part] as number) - a);
			muRe[part + 1] = gRe * cNext - gIm * sNext + f * ((muRe[part] as number) - (gRe * c - gIm * s));
			muIm[part + 1] = gRe * sNext + gIm * cNext + f * ((muIm[part] as number) - (gRe * s + gIm * c));
			nu[part + 1] = f * (nu[part] as number);
			this.fading += first.rate * length;
			// the part's work: level·((drive − level)·length + rippleDrive·∫ripple − (y_{p+1} − y_p))/λ
			const weight = first.level * first.inverseRate;
			const rippled = weight * first.rippleDrive * rippleTime;
			this.workConstant +=
				weight * ((first.drive - first.level) * length - ((kappa[part + 1] as number) - (kappa[part] as number)));
			this.workRe += rippled * (c - cNext) - weight * ((muIm[part + 1] as number) - (muIm[part] as number));
			this.workIm -= rippled * (s - sNext) + weight * ((muRe[part + 1] as number) - (muRe[part] as number));
			this.workY -= weight * ((nu[part + 1] as number) - (nu[part] as number));
		}
		const fade = nu[parts] as number;
		this.settled = (kappa[parts] as number) / (1 - fade);
		// Γ = μ/(q − F)
		const re = (turnRe[parts] as number) - fade;
		const im = turnIm[parts] as number;
		const scale = 1 / (re * re + im * im);
		this.gammaRe = ((muRe[parts] as number) * re + (muIm[parts] as number) * im) * scale;
		this.gammaIm = ((muIm[parts] as number) * re - (muRe[parts] as number) * im) * scale;
		this.possible = true;
	}
}

/** What a part is when + and − phase conduct all the time. */
function laneOf({ table, highTies, lowTies }: Frame, part: number): Lane | null {
	const tieHigh = highTies[part] === open ? lowDiode : (highTies[part] as number);
	const tieLow = lowTies[part] === open ? highDiode : (lowTies[part] as number);
	return table.at(part, tieHigh, tieLow, open);
}
