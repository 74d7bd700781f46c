import { decayInPlace } from '../../maths/decay.ts';
import { turnInPlace } from '../../maths/turn.ts';
import type { Lane, LaneDiode } from './lane-table.ts';
import type { PeriodState } from './period-state.ts';
import { shortCosine, shortDecay, shortSine, shortStep } from './short-step.ts';

/**
 * Finds when a diode's current comes to zero within a segment of a regular
 * period: by Newton's method from where one did in the period before, or from
 * a guess. Numbers come and go in the state of period-state.ts.
 */
export class DiodeStop {
	private readonly now: PeriodState;
	private readonly scratch = new Float64Array(2);

	constructor(now: PeriodState) {
		this.now = now;
	}

	/**
	 * Finds when the only current, now.y0 at the start, comes to zero in `lane`; its span, decay and ripple phasor then.
	 * @param remembered starts from the lane's last stop instead of from now.span
	 * @returns whether it does within the rest of the part, falling all the way
	 */
	one(lane: Lane, remembered: boolean): boolean {
		const { now } = this;
		const { first } = lane;
		const { rate, gainRe, gainIm } = first;
		const omega = now.omega;
		const rest = now.rest;
		const a = now.a0;
		const b = first.slope;
		const d = now.d0;
		const zRe = now.zRe;
		const zIm = now.zIm;
		const { toFirst } = lane.diode;
		const begin = toFirst * now.y0;
		const rotor = now.rotor;
		const sinusoidal = rotor !== 0;
		const wRe = now.wRe;
		const wIm = now.wIm;
		const { emfRe, emfIm } = first;
		let beginRate = b + omega * (gainRe * zRe - gainIm * zIm) - rate * d;
		if (sinusoidal) beginRate += rotor * (emfRe * wRe - emfIm * wIm);
		if (!(begin > 1e-9 && toFirst * beginRate < 0)) return false;
		const { shortLimit } = lane;
		let s = remembered ? lane.lastStop : now.span;
		for (let tries = 0; tries < 20 && s >= 0 && s <= rest; tries++) {
			if (!remembered || tries > 0) this.turnTo(lane, lane.diode, s);
			const zReEnd = zRe * lane.stopTurnRe - zIm * lane.stopTurnIm;
			const zImEnd = zRe * lane.stopTurnIm + zIm * lane.stopTurnRe;
			// the ripple's part, its derivative over Ω, and what decays
			const ripple = gainRe * zImEnd + gainIm * zReEnd;
			const swing = gainRe * zReEnd - gainIm * zImEnd;
			const fading = d * lane.stopDecay0;
			let y = a + b * s + ripple + fading;
			let yRate = b + omega * swing - rate * fading;
			let yBend = rate * rate * fading - omega * omega * ripple;
			let yTwist = -rate * rate * rate * fading - omega * omega * omega * swing;
			let wReEnd = 0;
			let wImEnd = 0;
			if (sinusoidal) {
				wReEnd = wRe * lane.stopRotorRe - wIm * lane.stopRotorIm;
				wImEnd = wRe * lane.stopRotorIm + wIm * lane.stopRotorRe;
				const forced = emfRe * wImEnd + emfIm * wReEnd;
				const forcedSwing = emfRe * wReEnd - emfIm * wImEnd;
				y += forced;
				yRate += rotor * forcedSwing;
				yBend -= rotor * rotor * forced;
				yTwist -= rotor * rotor * rotor * forcedSwing;
			}
			if (!(toFirst * yRate < 0)) return false;
			const scale = -1 / yRate;
			const newton = y * scale;
			const bend = 0.5 * scale * yBend;
			if (newton * newton < shortLimit * shortLimit && bend * bend * newton * newton < 1e-6) {
				// the rest by Taylor's series, to the third order
				const twist = (1 / 6) * scale * yTwist;
				const step = shortStep(newton, bend, twist);
				s += step;
				const c = shortCosine(omega * step);
				const q = shortSine(omega * step);
				if (sinusoidal) {
					const rotorC = shortCosine(rotor * step);
					const rotorQ = shortSine(rotor * step);
					now.wReEnd = wReEnd * rotorC - wImEnd * rotorQ;
					now.wImEnd = wImEnd * rotorC + wReEnd * rotorQ;
				}
				now.span = s;
				now.zReEnd = zReEnd * c - zImEnd * q;
				now.zImEnd = zImEnd * c + zReEnd * q;
				now.decay0 = lane.stopDecay0 * shortDecay(rate * step);
				return s > 0 && s <= rest;
			}
			s += newton;
		}
		return false;
	}

	/**
	 * Finds when `diode`, conducting at the start, stops in `lane`: its span, and modal currents, decays and ripple phasor
	 * then.
	 * @param remembered starts from the lane's last stop instead of from now.span
	 * @returns whether it does within the rest of the part, from a current that falls all the way, with all other diodes conducting
	 */
	two(lane: Lane, diode: LaneDiode, remembered: boolean): boolean {
		const { now } = this;
		const { first, second } = lane;
		const { toFirst, toSecond } = diode;
		const omega = now.omega;
		const rest = now.rest;
		const a0 = now.a0;
		const a1 = now.a1;
		const b0 = first.slope;
		const b1 = second.slope;
		const d0 = now.d0;
		const d1 = now.d1;
		const zRe = now.zRe;
		const zIm = now.zIm;
		const rate0 = first.rate;
		const rate1 = second.rate;
		const g0Re = first.gainRe;
		const g0Im = first.gainIm;
		const g1Re = second.gainRe;
		const g1Im = second.gainIm;
		const begin = toFirst * now.y0 + toSecond * now.y1;
		const rotor = now.rotor;
		const sinusoidal = rotor !== 0;
		const wRe = now.wRe;
		const wIm = now.wIm;
		let beginRate =
			toFirst * (b0 + omega * (g0Re * zRe - g0Im * zIm) - rate0 * d0) +
			toSecond * (b1 + omega * (g1Re * zRe - g1Im * zIm) - rate1 * d1);
		if (sinusoidal) {
			beginRate +=
				rotor *
				(toFirst * (first.emfRe * wRe - first.emfIm * wIm) + toSecond * (second.emfRe * wRe - second.emfIm * wIm));
		}
		if (!(begin > 1e-9 && beginRate < 0)) return false;
		const { shortLimit } = lane;
		let s = remembered ? lane.lastStop : now.span;
		for (let tries = 0; tries < 20 && s >= 0 && s <= rest; tries++) {
			if (!remembered || tries > 0) this.turnTo(lane, diode, s);
			const zReEnd = zRe * lane.stopTurnRe - zIm * lane.stopTurnIm;
			const zImEnd = zRe * lane.stopTurnIm + zIm * lane.stopTurnRe;
			// of each modal current: the ripple's part, its derivative over Ω, and what decays
			const ripple0 = g0Re * zImEnd + g0Im * zReEnd;
			const ripple1 = g1Re * zImEnd + g1Im * zReEnd;
			const swing0 = g0Re * zReEnd - g0Im * zImEnd;
			const swing1 = g1Re * zReEnd - g1Im * zImEnd;
			const fading0 = d0 * lane.stopDecay0;
			const fading1 = d1 * lane.stopDecay1;
			let y0Rate = b0 + omega * swing0 - rate0 * fading0;
			let y1Rate = b1 + omega * swing1 - rate1 * fading1;
			let y0Bend = rate0 * rate0 * fading0 - omega * omega * ripple0;
			let y1Bend = rate1 * rate1 * fading1 - omega * omega * ripple1;
			let y0Twist = -rate0 * rate0 * rate0 * fading0 - omega * omega * omega * swing0;
			let y1Twist = -rate1 * rate1 * rate1 * fading1 - omega * omega * omega * swing1;
			let y0 = a0 + b0 * s + ripple0 + fading0;
			let y1 = a1 + b1 * s + ripple1 + fading1;
			let wReEnd = 0;
			let wImEnd = 0;
			if (sinusoidal) {
				wReEnd = wRe * lane.stopRotorRe - wIm * lane.stopRotorIm;
				wImEnd = wRe * lane.stopRotorIm + wIm * lane.stopRotorRe;
				const forced0 = first.emfRe * wImEnd + first.emfIm * wReEnd;
				const forced1 = second.emfRe * wImEnd + second.emfIm * wReEnd;
				const forcedSwing0 = first.emfRe * wReEnd - first.emfIm * wImEnd;
				const forcedSwing1 = second.emfRe * wReEnd - second.emfIm * wImEnd;
				y0 += forced0;
				y1 += forced1;
				y0Rate += rotor * forcedSwing0;
				y1Rate += rotor * forcedSwing1;
				y0Bend -= rotor * rotor * forced0;
				y1Bend -= rotor * rotor * forced1;
				y0Twist -= rotor * rotor * rotor * forcedSwing0;
				y1Twist -= rotor * rotor * rotor * forcedSwing1;
			}
			const valueRate = toFirst * y0Rate + toSecond * y1Rate;
			if (!(valueRate < 0)) return false;
			const scale = -1 / valueRate;
			const newton = (toFirst * y0 + toSecond * y1) * scale;
			const bend = 0.5 * scale * (toFirst * y0Bend + toSecond * y1Bend);
			if (newton * newton < shortLimit * shortLimit && bend * bend * newton * newton < 1e-6) {
				// the rest by Taylor's series, to the third order
				const twist = (1 / 6) * scale * (toFirst * y0Twist + toSecond * y1Twist);
				const step = shortStep(newton, bend, twist);
				s += step;
				if (!(s > 0 && s <= rest)) return false;
				y0 += step * (y0Rate + step * (0.5 * y0Bend + step * (1 / 6) * y0Twist));
				y1 += step * (y1Rate + step * (0.5 * y1Bend + step * (1 / 6) * y1Twist));
				for (let number = 0; number < lane.diodeCount; number++) {
					const other = lane.diodes[number] as LaneDiode;
					if (other !== diode && !(other.toFirst * y0 + other.toSecond * y1 > 0)) return false;
				}
				const c = shortCosine(omega * step);
				const q = shortSine(omega * step);
				if (sinusoidal) {
					const rotorC = shortCosine(rotor * step);
					const rotorQ = shortSine(rotor * step);
					now.wReEnd = wReEnd * rotorC - wImEnd * rotorQ;
					now.wImEnd = wImEnd * rotorC + wReEnd * rotorQ;
				}
				now.span = s;
				now.zReEnd = zReEnd * c - zImEnd * q;
				now.zImEnd = zImEnd * c + zReEnd * q;
				now.y0End = y0;
				now.y1End = y1;
				now.decay0 = lane.stopDecay0 * shortDecay(rate0 * step);
				now.decay1 = lane.stopDecay1 * shortDecay(rate1 * step);
				return true;
			}
			s += newton;
		}
		return false;
	}

	/** Works out what `diode`'s stop `s` seconds into `lane` needs, and remembers it there. */
	private turnTo(lane: Lane, diode: LaneDiode, s: number): void {
		const { now, scratch } = this;
		lane.lastStop = s;
		lane.lastStopped = diode;
		scratch[0] = lane.first.rate * s;
		decayInPlace(scratch, 0);
		lane.stopDecay0 = scratch[0] as number;
		if (lane.modals > 1) {
			scratch[0] = lane.second.rate * s;
			decayInPlace(scratch, 0);
			lane.stopDecay1 = scratch[0] as number;
		}
		scratch[0] = now.omega * s;
		turnInPlace(scratch, 0);
		lane.stopTurnRe = scratch[0] as number;
		lane.stopTurnIm = scratch[1] as number;
		if (now.rotor === 0) return;
		scratch[0] = now.rotor * s;
		turnInPlace(scratch, 0);
		lane.stopRotorRe = scratch[0] as number;
		lane.stopRotorIm = scratch[1] as number;
	}
}
