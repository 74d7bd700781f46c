import { farCalls } from '../host/far-calls.ts';
import type { RecordTicket } from '../host/record-shelf.ts';
import type { startEngine } from './engine.ts';
import type { Services } from './model/services.ts';

/** The engine in its own thread; this one draws and listens, no more. */
export function studyRunner(): Pick<Services, 'study' | 'preview' | 'compare' | 'pointChange' | 'drivesNear'> {
	const engine = farCalls<ReturnType<typeof startEngine>>(startWorker);
	engine.start();
	// records that nobody on this side can ask for any more
	const forgotten = new FinalizationRegistry<string>((ticket) => {
		engine.call('letGo', { ticket }).catch(() => {});
	});
	const held = <Ticket extends RecordTicket | undefined>(record: Ticket): Ticket => {
		if (record) forgotten.register(record, record.ticket);
		return record;
	};
	return {
		async study(request, { onPartial, ...watch }) {
			const { result, record } = await engine.call('study', request, {
				...watch,
				onPartial: (soFar, record) => onPartial(soFar, held(record)),
			});
			return { result, record: held(record) };
		},
		async preview(request, { onPartial, ...watch }) {
			const found = await engine.call('preview', request, {
				...watch,
				onPartial: (soFar) => {
					held(soFar.record);
					onPartial(soFar);
				},
			});
			held(found?.record);
			return found;
		},
		async compare(request, watch) {
			const found = await engine.call('compare', request, watch);
			return found?.map(held) ?? null;
		},
		pointChange: (before, after) => engine.call('change', [before, after]),
		drivesNear: (place, where) => engine.call('near', { place, ...where }),
	};
}

// in one expression: only so does Vite see that the worker is to be built
const startWorker = (): Worker => new Worker(new URL('./engine-worker.ts', import.meta.url), { type: 'module' });
