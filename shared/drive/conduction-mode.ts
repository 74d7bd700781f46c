import { realZero } from '../maths/real-zero.ts';

/**
 * How a terminal is tied. Open: both switches off and no current. A diode is
 * named for the rail it conducts to.
 */
export const open = 0;
export const highSwitch = 1;
export const lowSwitch = 2;
export const highDiode = 3;
export const lowDiode = 4;
export type Tie = 0 | 1 | 2 | 3 | 4;

/** Whether a diode carries a terminal's current. */
export const isDiode = (tie: Tie): boolean => tie >= highDiode;

/** How a terminal whose switches are both off is tied, by its current. */
export const freeTie = (current: number): Tie => (current > 0 ? lowDiode : current < 0 ? highDiode : open);

/** Number of combinations of three ties, for a table of modes. */
export const modeCodes = 125;
export const modeCode = (a: Tie, b: Tie, c: Tie): number => a + 5 * b + 25 * c;

/** The sensing nodes that are driven by terminals: sense nodes of phases a, b, c, and the star node. */
export const nodeCount = 4;
export const starNode = 3;

/** What a mode needs to know of the drive (circuit.ts). */
export interface CircuitConstants {
	/** Of each phase: winding resistance, Ω; inductance, H; phasor of a sinusoidal back-EMF, V. */
	readonly resistance: Float64Array;
	readonly inductance: Float64Array;
	readonly emfRe: Float64Array;
	readonly emfIm: Float64Array;
	readonly sinusoidal: boolean;
	/** Electrical angular speed, rad/s. */
	readonly omega: number;
	/** V, V and rad/s. */
	readonly voltage: number;
	readonly rippleAmplitude: number;
	readonly rippleOmega: number;
	/** Ω. */
	readonly switchResistance: number;
	readonly shuntResistance: number;
	/** Of the nodes driven by terminals: time constants, s, and the weight of each terminal's voltage. */
	readonly nodeTau: Float64Array;
	readonly nodeWeights: readonly Float64Array[];
	/** The constant part of the voltage that a tie holds the terminal at, V. */
	railOf(tie: Tie): number;
}

/**
 * One conduction mode: while no tie changes, the winding currents obey a linear
 * equation with constant coefficients, here taken apart into at most two
 * decoupled modal currents y_m:
 *
 *   i_k = Σ_m U_km y_m,   y_m = Σ_k U_km L_k i_k,
 *   y_m' = −λ_m y_m + Σ_k U_km (rail_k − drop_k − e_k)
 *
 * U solves the generalised symmetric eigenproblem of the resistance and the
 * inductance form on the plane Σ i_k = 0 (columns of U add up to zero, so the
 * neutral voltage drops out; columns are orthonormal under L). The shunt adds
 * R_sh (Σ_high i)² to the resistance form.
 */
export class ConductionMode {
	ties: [Tie, Tie, Tie] = [0, 0, 0];
	/** Modal currents: conducting phases − 1, at least 0. */
	modalCount = 0;
	/** Conducting (tied or diode) phases. */
	conducting = 0;
	/** U_km, phase k of modal current m. */
	uA0 = realZero;
	uB0 = realZero;
	uC0 = realZero;
	uA1 = realZero;
	uB1 = realZero;
	uC1 = realZero;
	/** Decay rates λ_m, 1/s. */
	rate0 = realZero;
	rate1 = realZero;
	/** Constant drive Σ_k U_km (rail_k − drop_k). */
	drive0 = realZero;
	drive1 = realZero;
	/** Gain of the bus ripple's phasor A_r·e^{j(2πf_r t + φ_r)} to y_m (imaginary part taken); weight of ripple in the modal drive. */
	rippleRe0 = realZero;
	rippleIm0 = realZero;
	rippleRe1 = realZero;
	rippleIm1 = realZero;
	rippleDrive0 = realZero;
	rippleDrive1 = realZero;
	/** Gain of the phasor e^{jθ} to y_m, sinusoidal back-EMF only; and that phasor's drive. */
	emfRe0 = realZero;
	emfIm0 = realZero;
	emfRe1 = realZero;
	emfIm1 = realZero;
	emfDriveRe0 = realZero;
	emfDriveIm0 = realZero;
	emfDriveRe1 = realZero;
	emfDriveIm1 = realZero;
	/** v_low = Σ lowRail_m y_m. */
	lowRail0 = realZero;
	lowRail1 = realZero;
	/** v_n = neutral + neutralRipple·ripple + Σ neutralEmf_k e_k + Σ neutral_m y_m. */
	neutral = realZero;
	neutralRipple = realZero;
	neutralEmfA = realZero;
	neutralEmfB = realZero;
	neutralEmfC = realZero;
	neutral0 = realZero;
	neutral1 = realZero;
	/** Drive of each sensing node, filled when first read in this mode. */
	readonly nodes: readonly NodeDrive[] = Array.from({ length: nodeCount }, () => new NodeDrive());

	/** Fills in everything for `circuit` and the ties; terminal voltages are against the bus negative. */
	set(circuit: CircuitConstants, a: Tie, b: Tie, c: Tie): void {
		this.ties[0] = a;
		this.ties[1] = b;
		this.ties[2] = c;
		for (const node of this.nodes) node.known = false;
		const { ties } = this;
		const { inductance, voltage, switchResistance, shuntResistance } = circuit;
		const rho = [0, 0, 0];
		const rail = [0, 0, 0];
		const high = [0, 0, 0];
		this.conducting = 0;
		for (let k = 0; k < 3; k++) {
			const tie = ties[k] as Tie;
			if (tie !== open) this.conducting++;
			rho[k] = at(circuit.resistance, k) + (tie === highSwitch || tie === lowSwitch ? switchResistance : 0);
			rail[k] = circuit.railOf(tie);
			high[k] = tie === highSwitch || tie === highDiode ? 1 : 0;
		}
		this.modalCount = this.conducting > 1 ? this.conducting - 1 : 0;
		this.setModal(circuit, rho, high);

		// drives of the modal currents
		this.drive0 = this.uA0 * at(rail, 0) + this.uB0 * at(rail, 1) + this.uC0 * at(rail, 2);
		this.drive1 = this.uA1 * at(rail, 0) + this.uB1 * at(rail, 1) + this.uC1 * at(rail, 2);
		const h0 = this.uA0 * at(high, 0) + this.uB0 * at(high, 1) + this.uC0 * at(high, 2);
		const h1 = this.uA1 * at(high, 0) + this.uB1 * at(high, 1) + this.uC1 * at(high, 2);
		this.lowRail0 = shuntResistance * h0;
		this.lowRail1 = shuntResistance * h1;
		this.setPhasors(circuit, h0, h1);

		// the star point of the windings
		if (this.conducting === 0) {
			// nothing conducts: a convention for the sensing alone
			this.neutral = voltage / 2;
			this.neutralRipple = 0.5;
			this.neutralEmfA = this.neutralEmfB = this.neutralEmfC = -1 / 3;
			this.neutral0 = this.neutral1 = 0;
			return;
		}
		let weight = 0;
		let constant = 0;
		let ripple = 0;
		let modal0 = 0;
		let modal1 = 0;
		const emf = [0, 0, 0];
		for (let k = 0; k < 3; k++) {
			if (ties[k] === open) continue;
			const y = 1 / at(inductance, k);
			const low = 1 - at(high, k);
			weight += y;
			constant += y * at(rail, k);
			ripple += y * at(high, k);
			emf[k] = -y;
			modal0 += y * (low * this.lowRail0 - at(rho, k) * this.u(k, 0));
			modal1 += y * (low * this.lowRail1 - at(rho, k) * this.u(k, 1));
		}
		this.neutral = constant / weight;
		this.neutralRipple = ripple / weight;
		this.neutralEmfA = at(emf, 0) / weight;
		this.neutralEmfB = at(emf, 1) / weight;
		this.neutralEmfC = at(emf, 2) / weight;
		this.neutral0 = modal0 / weight;
		this.neutral1 = modal1 / weight;
	}

	u(phase: number, modal: 0 | 1): number {
		if (modal === 0) return phase === 0 ? this.uA0 : phase === 1 ? this.uB0 : this.uC0;
		return phase === 0 ? this.uA1 : phase === 1 ? this.uB1 : this.uC1;
	}

	/** Weight of phase k's back-EMF in v_n. */
	neutralEmf(k: number): number {
		return k === 0 ? this.neutralEmfA : k === 1 ? this.neutralEmfB : this.neutralEmfC;
	}

	/** The node's drive in this mode, computed on first use. */
	node(circuit: CircuitConstants, index: number): NodeDrive {
		const node = this.nodes[index] as NodeDrive;
		if (!node.known) node.set(circuit, this, index);
		return node;
	}

	private setModal(circuit: CircuitConstants, rho: readonly number[], high: readonly number[]): void {
		const { inductance: l, shuntResistance } = circuit;
		this.uA0 = this.uB0 = this.uC0 = this.uA1 = this.uB1 = this.uC1 = 0;
		this.rate0 = this.rate1 = 1; // unused ones stay harmless
		if (this.conducting === 2) {
			const x = this.ties[0] !== open ? 0 : 1;
			const y = this.ties[2] !== open ? 2 : 1;
			const total = at(l, x) + at(l, y);
			const u = 1 / Math.sqrt(total);
			const through = at(high, x) !== at(high, y) ? shuntResistance : 0;
			this.rate0 = (at(rho, x) + at(rho, y) + through) / total;
			if (x === 0) this.uA0 = u;
			else this.uB0 = u;
			if (y === 2) this.uC0 = -u;
			else this.uB0 = -u;
		} else if (this.conducting === 3) {
			// forms in (i_a, i_b), with i_c = −i_a − i_b
			const ha = at(high, 0) - at(high, 2);
			const hb = at(high, 1) - at(high, 2);
			const laa = at(l, 0) + at(l, 2);
			const lab = at(l, 2);
			const lbb = at(l, 1) + at(l, 2);
			const raa = at(rho, 0) + at(rho, 2) + shuntResistance * ha * ha;
			const rab = at(rho, 2) + shuntResistance * ha * hb;
			const rbb = at(rho, 1) + at(rho, 2) + shuntResistance * hb * hb;
			// Cholesky L = C Cᵀ, then M = C⁻¹ R C⁻ᵀ is symmetric
			const c11 = Math.sqrt(laa);
			const c21 = lab / c11;
			const c22 = Math.sqrt(lbb - c21 * c21);
			const m11 = raa / (c11 * c11);
			const m12 = (rab - (c21 * raa) / c11) / (c11 * c22);
			const m22 = (rbb - (2 * c21 * rab) / c11 + ((c21 / c11) * c21 * raa) / c11) / (c22 * c22);
			// one Jacobi rotation diagonalises it, also when its eigenvalues all but coincide
			let cos = 1;
			let sin = 0;
			if (m12 !== 0) {
				const tau = (m22 - m11) / (2 * m12);
				const tan = (tau >= 0 ? 1 : -1) / (Math.abs(tau) + Math.sqrt(1 + tau * tau));
				cos = 1 / Math.sqrt(1 + tan * tan);
				sin = tan * cos;
				this.rate0 = m11 - tan * m12;
				this.rate1 = m22 + tan * m12;
			} else {
				this.rate0 = m11;
				this.rate1 = m22;
			}
			this.uB0 = -sin / c22;
			this.uA0 = (cos - c21 * this.uB0) / c11;
			this.uC0 = -this.uA0 - this.uB0;
			this.uB1 = cos / c22;
			this.uA1 = (sin - c21 * this.uB1) / c11;
			this.uC1 = -this.uA1 - this.uB1;
		}
	}

	private setPhasors(circuit: CircuitConstants, h0: number, h1: number): void {
		const { rippleAmplitude: a, rippleOmega: w } = circuit;
		this.rippleDrive0 = h0;
		this.rippleDrive1 = h1;
		// 1/(λ + jΩ)
		const n0 = 1 / (this.rate0 * this.rate0 + w * w);
		const n1 = 1 / (this.rate1 * this.rate1 + w * w);
		this.rippleRe0 = a * h0 * this.rate0 * n0;
		this.rippleIm0 = -a * h0 * w * n0;
		this.rippleRe1 = a * h1 * this.rate1 * n1;
		this.rippleIm1 = -a * h1 * w * n1;
		if (!circuit.sinusoidal) return;
		const { emfRe, emfIm, omega } = circuit;
		this.emfDriveRe0 = -(this.uA0 * at(emfRe, 0) + this.uB0 * at(emfRe, 1) + this.uC0 * at(emfRe, 2));
		this.emfDriveIm0 = -(this.uA0 * at(emfIm, 0) + this.uB0 * at(emfIm, 1) + this.uC0 * at(emfIm, 2));
		this.emfDriveRe1 = -(this.uA1 * at(emfRe, 0) + this.uB1 * at(emfRe, 1) + this.uC1 * at(emfRe, 2));
		this.emfDriveIm1 = -(this.uA1 * at(emfIm, 0) + this.uB1 * at(emfIm, 1) + this.uC1 * at(emfIm, 2));
		const k0 = 1 / (this.rate0 * this.rate0 + omega * omega);
		const k1 = 1 / (this.rate1 * this.rate1 + omega * omega);
		this.emfRe0 = (this.emfDriveRe0 * this.rate0 + this.emfDriveIm0 * omega) * k0;
		this.emfIm0 = (this.emfDriveIm0 * this.rate0 - this.emfDriveRe0 * omega) * k0;
		this.emfRe1 = (this.emfDriveRe1 * this.rate1 + this.emfDriveIm1 * omega) * k1;
		this.emfIm1 = (this.emfDriveIm1 * this.rate1 - this.emfDriveRe1 * omega) * k1;
	}
}

/**
 * What drives one sensing node in one mode, already through its first-order
 * network of time constant τ: the node's forced response is
 *
 *   constant + Σ emf_k (e_k − τ e_k') + Σ modal_m (A_m − τ B_m + B_m s)
 *     + Im(ripple·z) + Im(emfPhasor·w) + Σ decay_m D_m e^{−λ_m s}
 *
 * with A, B, D of the segment (segment-history.ts).
 */
export class NodeDrive {
	known = false;
	constant = realZero;
	emfA = realZero;
	emfB = realZero;
	emfC = realZero;
	modal0 = realZero;
	modal1 = realZero;
	decay0 = realZero;
	decay1 = realZero;
	rippleRe = realZero;
	rippleIm = realZero;
	emfRe = realZero;
	emfIm = realZero;

	set(circuit: CircuitConstants, mode: ConductionMode, index: number): void {
		const tau = at(circuit.nodeTau, index);
		const weights = circuit.nodeWeights[index] as Float64Array;
		let constant = 0;
		let ripple = 0;
		let modal0 = 0;
		let modal1 = 0;
		const emf = [0, 0, 0];
		for (let k = 0; k < 3; k++) {
			const w = at(weights, k);
			if (w === 0) continue;
			const tie = mode.ties[k] as Tie;
			if (tie === open) {
				constant += w * mode.neutral;
				ripple += w * mode.neutralRipple;
				modal0 += w * mode.neutral0;
				modal1 += w * mode.neutral1;
				emf[k] = at(emf, k) + w;
				emf[0] = at(emf, 0) + w * mode.neutralEmfA;
				emf[1] = at(emf, 1) + w * mode.neutralEmfB;
				emf[2] = at(emf, 2) + w * mode.neutralEmfC;
				continue;
			}
			constant += w * circuit.railOf(tie);
			const high = tie === highSwitch || tie === highDiode;
			const drop = tie === highSwitch || tie === lowSwitch ? circuit.switchResistance : 0;
			if (high) ripple += w;
			modal0 += w * ((high ? 0 : mode.lowRail0) - drop * mode.u(k, 0));
			modal1 += w * ((high ? 0 : mode.lowRail1) - drop * mode.u(k, 1));
		}
		this.constant = constant;
		this.emfA = at(emf, 0);
		this.emfB = at(emf, 1);
		this.emfC = at(emf, 2);
		this.modal0 = modal0;
		this.modal1 = modal1;
		this.decay0 = modal0 / awayFromZero(1 - mode.rate0 * tau);
		this.decay1 = modal1 / awayFromZero(1 - mode.rate1 * tau);
		// (A_r·w_ripple + Σ modal·gain) / (1 + jΩτ)
		const re = circuit.rippleAmplitude * ripple + modal0 * mode.rippleRe0 + modal1 * mode.rippleRe1;
		const im = modal0 * mode.rippleIm0 + modal1 * mode.rippleIm1;
		const wt = circuit.rippleOmega * tau;
		const n = 1 / (1 + wt * wt);
		this.rippleRe = (re + im * wt) * n;
		this.rippleIm = (im - re * wt) * n;
		if (circuit.sinusoidal) {
			const { emfRe, emfIm } = circuit;
			let eRe = modal0 * mode.emfRe0 + modal1 * mode.emfRe1;
			let eIm = modal0 * mode.emfIm0 + modal1 * mode.emfIm1;
			for (let k = 0; k < 3; k++) {
				eRe += at(emf, k) * at(emfRe, k);
				eIm += at(emf, k) * at(emfIm, k);
			}
			const et = circuit.omega * tau;
			const en = 1 / (1 + et * et);
			this.emfRe = (eRe + eIm * et) * en;
			this.emfIm = (eIm - eRe * et) * en;
		}
		this.known = true;
	}
}

/**
 * A network as fast as a winding's own decay would make the two exponentials
 * coincide; keeping them 10⁻⁷ apart changes the node by less than 10⁻⁷ of it.
 */
function awayFromZero(x: number): number {
	return Math.abs(x) < 1e-7 ? 1e-7 : x;
}

function at(list: ArrayLike<number>, k: number): number {
	return list[k] as number;
}
