import { stream } from '../../shared/sampling/stream.ts';
import type { PickFreeze } from '../../shared/statistics/sensitivity-indices.ts';

export type Model = (u: readonly number[]) => number;

/** Pick-freeze design of a model on independent uniforms, for the group of inputs `group`. */
export function design(
	model: Model,
	inputs: number,
	group: readonly number[],
	rows: number,
	seed = 'design',
): PickFreeze {
	const next = stream(seed, 'design', rows);
	const row = (): number[] => Array.from({ length: inputs }, () => next.double());
	const a: number[] = [];
	const b: number[] = [];
	const mixed: number[] = [];
	for (let i = 0; i < rows; i++) {
		const one = row();
		const other = row();
		a.push(model(one));
		b.push(model(other));
		mixed.push(model(one.map((value, input) => (group.includes(input) ? (other[input] as number) : value))));
	}
	return { a, b, mixed };
}

const angle = (u: number): number => Math.PI * (2 * u - 1);
/** T. Ishigami and T. Homma 1990, a = 7, b = 0.1. */
export const ishigami: Model = ([x = 0, y = 0, z = 0]) =>
	Math.sin(angle(x)) + 7 * Math.sin(angle(y)) ** 2 + 0.1 * angle(z) ** 4 * Math.sin(angle(x));
