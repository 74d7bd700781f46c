import type { Problem } from '../../shared/scenario/scenario.ts';

/** A value an option was read as, or what is wrong with it. */
export type OptionReading<T> = { readonly value: T } | { readonly problem: string };

/** One option, declared once: reading and help loop over it. */
export interface OptionRecord<T = unknown> {
	/** What stands for the value in the help; absent for a switch. */
	readonly placeholder?: string;
	/** What it does, with its range and default. */
	readonly sentence: string;
	/** Reads the value; absent for a switch. */
	readonly read?: (text: string) => OptionReading<T>;
	/** How often it may be given, where more than once; `read` then gives a list of one, and the value is all of them, in order. */
	readonly repeats?: number;
	/** Value where the option is not given; for a switch, false. */
	readonly fallback: T;
}

export interface HelpTopic {
	/** What it lists. */
	readonly sentence: string;
	readonly text: () => string;
}

/** One command of the command line. */
export interface CommandRecord<Options extends Readonly<Record<string, OptionRecord>>> {
	readonly name: string;
	/** What it is for, in one line. */
	readonly purpose: string;
	/** What stands for the input file in the help. */
	readonly file: string;
	/** The same for a second one, where a command takes two. */
	readonly secondFile?: string;
	readonly example: string;
	readonly options: Options;
	/** What --help tells beside the options, by the word that asks for it; the parameters of a scenario if not given. */
	readonly topics?: Readonly<Record<string, HelpTopic>>;
	/** What the exit codes mean, and what else to know. */
	readonly remarks: readonly string[];
}

export type OptionValues<Options extends Readonly<Record<string, OptionRecord>>> = {
	readonly [Name in keyof Options]: Options[Name] extends OptionRecord<infer T> ? T : never;
};

export interface Arguments<Options extends Readonly<Record<string, OptionRecord>>> {
	/** The input file; empty where none is given. */
	readonly file: string;
	/** A second one, for commands that take two. */
	readonly secondFile: string;
	readonly values: OptionValues<Options>;
	/** Whether help is asked for; the word of the topic where it is on one. */
	readonly help: boolean | string;
	readonly problems: readonly Problem[];
}
