import type { ChoiceName, PerChoice } from '../drive/drive.ts';

/** The same made for each sensing choice. */
export const perChoice = <T>(make: (choice: ChoiceName) => T): PerChoice<T> => ({
	halfBus: make('halfBus'),
	virtualNeutral: make('virtualNeutral'),
});
