import type { Services } from './model/services.ts';

type Engine = Pick<Services, 'study' | 'preview' | 'compare' | 'pointChange'>;

/** The engine's near side, loaded beside the page's first script so that the page is drawn without waiting for it. */
export function studyRunner(): Engine {
	let started: Engine | null = null;
	const engine = import('./engine.ts').then(({ startEngine }) => {
		started = startEngine();
		return started;
	});
	// whoever asks is told
	engine.catch(() => {});
	return {
		study: async (...asked) => (await engine).study(...asked),
		preview: async (...asked) => (await engine).preview(...asked),
		compare: async (...asked) => (await engine).compare(...asked),
		// units to compare come from the engine, which is then there
		pointChange: (...places) => started?.pointChange(...places) ?? null,
	};
}
