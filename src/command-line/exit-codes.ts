/** What a command's process ends with. */
export const exitCodes = {
	done: 0,
	/** Something that is neither the input's nor the user's doing, such as a full disk. */
	broken: 1,
	/** With --require: the figures are there, and do not show that the requirement holds. */
	notShown: 1,
	badInput: 2,
	/** 128 + SIGINT, as shells have it. */
	interrupted: 130,
} as const;

export type ExitCode = (typeof exitCodes)[keyof typeof exitCodes];
