import { evenOnScale, evenQuantity } from '../words/quantity.ts';
import type { BuiltPart } from './unusual-parts.ts';

export interface PartRow {
	readonly key: string;
	readonly name: string;
	readonly value: string;
	readonly deviation: string;
	/** "1 in 40": how many such parts lie as far out. */
	readonly asFarOut: string;
}

const phases = ['a', 'b', 'c'] as const;
const resistors = [
	...phases.map((phase) => `divider top\u00a0${phase}`),
	...phases.map((phase) => `divider bottom\u00a0${phase}`),
	'bus divider top',
	'bus divider bottom',
	...phases.map((phase) => `star\u00a0${phase}`),
	'star ground',
] as const;

/** Parts in words: the value as built, how far it is off, and how many such parts are. */
export function partRows(parts: readonly BuiltPart[]): readonly PartRow[] {
	return parts.map(({ record, instance, value, deviation, scale, asFarOut }) => ({
		key: `${record.id} ${instance}`,
		name: nameOf(record, instance),
		value: evenQuantity(value, record.unit, 5),
		deviation: signed(deviation, evenOnScale(scale, Math.abs(deviation), record.unit, 3)),
		asFarOut: oneIn(asFarOut),
	}));
}

function nameOf({ name, instances }: BuiltPart['record'], instance: number): string {
	if (instances === 1) return name;
	return instances === 3 ? `${name},\u00a0${phases[instance]}` : `${name}, ${resistors[instance]}`;
}

const signed = (value: number, size: string): string => (value === 0 ? size : `${value < 0 ? '−' : '+'}${size}`);

function oneIn(share: number): string {
	if (share === 0) return 'beyond its tolerance';
	if (share > 0.5) return 'more than half';
	const one = 1 / share;
	return `1 in ${one < 10 ? Number(one.toPrecision(2)) : Math.round(one)}`;
}
