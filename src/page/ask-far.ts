import { farCalls } from '../host/far-calls.ts';
import type { questions } from './questions.ts';

type Questions = typeof questions;

// in one expression: only so does Vite see that the worker is to be built
const thread = farCalls<Questions>(
	(): Worker => new Worker(new URL('./questions-worker.ts', import.meta.url), { type: 'module' }),
);

/** A longer question by its name, asked in its own thread; started when the first one is asked. */
export const askFar =
	<Name extends keyof Questions>(name: Name) =>
	(asked: Parameters<Questions[Name]>[0], watch: Parameters<Questions[Name]>[1]): ReturnType<Questions[Name]> =>
		thread.call(name, asked, watch);
