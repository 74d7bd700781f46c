import { type ChoiceName, choiceNames, type PerChoice } from './drive.ts';

/** The same made for each sensing choice; `place` is its index into choiceNames, as columns have it. */
export const perChoice = <T>(make: (choice: ChoiceName, place: number) => T): PerChoice<T> =>
	Object.fromEntries(choiceNames.map((choice, place) => [choice, make(choice, place)])) as unknown as PerChoice<T>;
