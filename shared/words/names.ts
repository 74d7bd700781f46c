import type { Cause, PerChoice } from '../drive/drive.ts';

/** What the sensing choices, events and causes are called in print; one place, so that every surface says the same. */
export const choiceWords: PerChoice<string> = { halfBus: 'half-bus', virtualNeutral: 'virtual neutral' };

export type EventKind = 'early' | 'late' | 'missed';
export const eventKinds: readonly EventKind[] = ['early', 'late', 'missed'];

export const eventWords: Readonly<Record<EventKind, string>> = {
	early: 'early false crossings',
	late: 'late crossings',
	missed: 'missed crossings',
};

export const causeWords: Readonly<Record<Cause, string>> = {
	freewheel: 'read while the open phase still freewheeled',
	noise: 'noise or ringing carried the vote',
	threshold: 'the threshold itself was off',
};

/** Sector kinds 0…5: the open phase, and which way its EMF crosses. */
export const sectorWords: readonly { readonly phase: string; readonly rising: boolean }[] = [
	{ phase: 'c', rising: false },
	{ phase: 'b', rising: true },
	{ phase: 'a', rising: false },
	{ phase: 'c', rising: true },
	{ phase: 'b', rising: false },
	{ phase: 'a', rising: true },
];
