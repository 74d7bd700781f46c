import type { Basis, ConditionRange, Distribution, Tolerance } from '../parameters/parameter.ts';
import type { OperatingPoint, Scenario } from '../scenario/scenario.ts';
import { type Check, count, dictionary, finite, flag, list, object, one, optional, text } from './shape.ts';

/* What a resolved scenario looks like where it comes from outside; ids are not looked up, other versions have others. */

const scale = one('relative', 'absolute');
const sentence = text(4000);
const word = text(300);

const tolerance = object<Tolerance>({
	scale,
	lot: finite,
	mismatch: finite,
	distribution: one<Distribution>('uniform', 'normal', 'triangular', 'gapped', 'measured'),
	gap: optional(finite),
	measured: optional(list(finite, 100_000)),
	basis: one<Basis>('measured', 'data sheet', 'assumed'),
});

const point = object<OperatingPoint>({
	name: word,
	values: dictionary(finite, 200),
	ranges: dictionary(object<ConditionRange>({ scale, halfWidth: finite }), 200),
});

const value: Check<number | string> = (found, path) => (typeof found === 'string' ? word : finite)(found, path);

const shape = object<Scenario>({
	name: word,
	invented: optional(flag),
	lesson: sentence,
	values: dictionary(value, 500),
	tolerances: dictionary(tolerance, 500),
	points: list(point, 100),
	referencePoint: count,
});

export const scenarioShape: Check<Scenario> = (found, path) =>
	shape(found, path) ?? ((found as Scenario).points[(found as Scenario).referencePoint] ? null : `${path}.points`);
