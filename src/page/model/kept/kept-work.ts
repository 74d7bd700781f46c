/** What the page was asked: enough to come back to it, here or elsewhere, with the same figures to the last digit. */
export interface KeptWork {
	/** What the scenario's file is called. */
	readonly file: string;
	/** The scenario as it was opened, and as it stands. */
	readonly base: string;
	readonly text: string;
	/** As typed. */
	readonly units: string;
	readonly seed: string;
	/** Index of the operating point on show. */
	readonly point: number;
}
