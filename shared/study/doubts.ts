/** Of the provenance of any result: what its inputs put in doubt, and what befell the run. */
export interface Doubts {
	/** What an engineer would question in the inputs: the same for everyone who runs them. */
	readonly warnings: readonly string[];
	/** Which workers were lost on the way, where any were: of one run alone, and no figure hangs on it. */
	readonly lostWorkers?: string | undefined;
}

/** Both, to be told. */
export const cautionsOf = ({ warnings, lostWorkers }: Doubts): readonly string[] =>
	lostWorkers === undefined ? warnings : [...warnings, lostWorkers];
