import { isObject, type Json } from './read-json.ts';

/** What a file is, as far as its outermost members show; undefined where they do not. */
export function fileKind(value: Json): 'scenario' | 'boards' | 'result' | undefined {
	if (!isObject(value)) return undefined;
	if (typeof value.format === 'string' && value.format.startsWith('anglespread')) return 'result';
	if (Array.isArray(value.points)) return 'scenario';
	return Array.isArray(value.cases) ? 'boards' : undefined;
}
