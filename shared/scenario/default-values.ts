import { parameters } from '../parameters/parameters.ts';
import type { Values } from './scenario.ts';

/** The nominal value of every parameter as its record declares it. */
export function defaultValues(): Values {
	return Object.fromEntries(parameters.map((record) => [record.id, record.default]));
}
