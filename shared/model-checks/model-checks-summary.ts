import { count } from '../words/figures.ts';
import summary from './model-checks.json' with { type: 'json' };

/** What `npm run check-model` found of this version; a test holds it to be current. */
export interface ModelChecksSummary {
	/** Version of the program that was checked. */
	readonly version: string;
	readonly checks: number;
	/** How many hold. */
	readonly held: number;
	/** By where the expected figure comes from. */
	readonly published: number;
	readonly closedForms: number;
	readonly independent: number;
}

export const modelChecksSummary: ModelChecksSummary = summary;

/** The same in a sentence, for a report. */
export function modelChecksSentence({
	version,
	checks,
	held,
	published,
	closedForms,
	independent,
}: ModelChecksSummary): string {
	const outcome = held === checks ? `all ${count(checks)} hold` : `${count(held)} of ${count(checks)} hold`;
	return `Of the figures of version ${version} that are known from outside it, ${outcome}: ${count(published)} published values, ${count(closedForms)} closed forms and ${count(independent)} results of independent computations (npm run check-model lists them with their sources).`;
}
