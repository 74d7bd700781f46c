import { parameter } from '../parameters/parameters.ts';
import { partSlots } from '../sampling/draw-parts.ts';
import { startSlots } from '../sampling/draw-start.ts';
import type { Scenario } from '../scenario/scenario.ts';

/** Base uniforms that are told apart from the rest when the spread is shared out. */
export interface SpreadGroup {
	readonly id: string;
	/** The engineer's words, with an article where a sentence needs one. */
	readonly name: string;
	/** Indices into `partSlots`. */
	readonly parts: readonly number[];
	/** Indices into `startSlots`. */
	readonly starts: readonly number[];
	/** Whether any of them varies at the operating point. */
	readonly varies: boolean;
}

/** Groups of more than one parameter. A part named in none makes a group of its own, called as its record. */
const named: Readonly<Record<string, string>> = {
	phaseDivider: 'the phase-divider resistors',
	busDivider: 'the bus-divider resistors',
	star: 'the star resistors',
	capacitors: 'the filter capacitors',
	ringing: 'the coupling and phase of ringing',
	conditions: 'the conditions',
	moments: 'the moment of the start',
	// what all temperature coefficients share is no single resistor's
	'sensing.resistorCoefficient': 'the common resistor drift',
};

const members: Readonly<Record<string, keyof typeof named>> = {
	'sensing.divider.top': 'phaseDivider',
	'sensing.divider.bottom': 'phaseDivider',
	'sensing.halfBus.top': 'busDivider',
	'sensing.halfBus.bottom': 'busDivider',
	'sensing.virtualNeutral.star': 'star',
	'sensing.virtualNeutral.ground': 'star',
	'sensing.divider.capacitor': 'capacitors',
	'sensing.halfBus.capacitor': 'capacitors',
	'sensing.virtualNeutral.capacitor': 'capacitors',
	'noise.ringCoupling': 'ringing',
	ringPhase: 'ringing',
};

/** Which resistor each of the twelve temperature coefficients belongs to, in the order of build-drive.ts. */
const coefficientOwners = [
	...Array<string>(6).fill('phaseDivider'),
	...Array<string>(2).fill('busDivider'),
	...Array<string>(4).fill('star'),
];

/**
 * The groups that the spread is shared out to, every slot of a unit and of a
 * start in exactly one: resistors with their own temperature coefficients,
 * capacitors, ringing, every other part by itself, the conditions, and the
 * moment of the start (carrier and ripple phase).
 */
export function spreadGroups(scenario: Scenario, point: number): SpreadGroup[] {
	const operatingPoint = scenario.points[point];
	if (!operatingPoint) throw new RangeError(`point ${point} of ${scenario.points.length}`);
	const groups = new Map<string, { parts: number[]; starts: number[]; varies: boolean }>();
	const group = (id: string) => {
		const found = groups.get(id) ?? { parts: [], starts: [], varies: false };
		groups.set(id, found);
		return found;
	};
	for (const id of Object.keys(named).slice(0, 4)) group(id); // sensing network first, in this order
	partSlots.forEach(({ id, source }, slot) => {
		const own = group(groupOf(id, source));
		own.parts.push(slot);
		own.varies ||= partVaries(scenario, slot);
	});
	startSlots.forEach((id, slot) => {
		const isMoment = id === 'pwmPhase' || id === 'ripplePhase';
		const own = group(isMoment ? 'moments' : 'conditions');
		own.starts.push(slot);
		own.varies ||= isMoment || (operatingPoint.ranges[id]?.halfWidth ?? 0) > 0;
	});
	return [...groups].map(([id, own]) => ({ id, name: named[id] ?? `the ${parameter(id).name}`, ...own }));
}

/** Whether the base uniform of a part's slot changes anything under the scenario's tolerances. */
export function partVaries(scenario: Scenario, slot: number): boolean {
	const { id, source } = partSlots[slot] ?? { id: '', source: 0 };
	if (members[id] === 'ringing' && scenario.values['noise.ringAmplitude'] === 0) return false;
	if (id === 'ringPhase') return true;
	const tolerance = scenario.tolerances[id];
	if (tolerance?.distribution === 'measured') return source !== 'lot';
	return ((source === 'lot' ? tolerance?.lot : tolerance?.mismatch) ?? 0) > 0;
}

function groupOf(id: string, source: 'lot' | number): string {
	if (id === 'sensing.resistorCoefficient') return source === 'lot' ? id : (coefficientOwners[source] ?? id);
	return members[id] ?? id;
}
