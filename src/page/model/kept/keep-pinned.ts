import { effect } from '@preact/signals';
import { isObject, type JsonObject, readJson } from '../../../../shared/scenario/read-json.ts';
import { version } from '../../../../shared/study/version.ts';
import type { Baseline } from '../baseline.ts';
import type { PageModel } from '../page-model.ts';
import { belongs } from './belongs.ts';
import { readRecord } from './kept-record.ts';
import type { KeptStore } from './kept-store.ts';
import type { KeptWork } from './kept-work.ts';

type Page = Pick<PageModel, 'against' | 'services'>;

/** Pins what was pinned when the page was left, and from then on keeps what is pinned. */
export async function keepPinned(page: Page, store: () => Promise<KeptStore>): Promise<void> {
	const pinned = await keptFigures(page, async () => (await store()).baseline());
	if (pinned && !page.against.baseline.peek()) page.against.adopt(pinned);
	noteBaseline(page, store);
}

function noteBaseline({ against }: Page, store: () => Promise<KeptStore>): void {
	let noted: JsonObject | null = against.baseline.peek()?.document ?? null;
	effect(() => {
		const pinned = against.baseline.value;
		if ((pinned?.document ?? null) === noted) return;
		noted = pinned?.document ?? null;
		const figures = pinned && { work: workOf(pinned), result: pinned.shown.result };
		void (async () => (await store()).setBaseline(figures))().catch(() => {});
	});
}

/** A baseline's inputs as they are kept: its document is its base. */
function workOf({ shown: { scenario, units, seed }, document }: Baseline): KeptWork {
	const text = JSON.stringify(document);
	return { file: scenario.name.slice(0, 300), base: text, text, units: String(units), seed, point: 0 };
}

/** Kept figures with their scenario read again; null where there are none, or they are broken or another version's. */
async function keptFigures(page: Page, get: () => Promise<unknown>): Promise<Baseline | null> {
	try {
		const stored = (await get()) as { readonly work?: unknown; readonly result?: unknown } | undefined;
		const read = readRecord({ id: '', name: '', note: '', keptAt: 0, work: stored?.work, result: stored?.result });
		if (!('record' in read)) return null;
		const { work, result } = read.record;
		if (!(await belongs(work, result, page.services.read, version))) return null;
		const reading = page.services.read(work.text);
		const { value: document } = readJson(work.text);
		if (!('scenario' in reading) || !isObject(document)) return null;
		const { units, seed } = { units: result.provenance.units.asked, seed: result.provenance.seed };
		return { shown: { scenario: reading.scenario, units, seed, result }, document };
	} catch {
		return null; // it can be worked out again
	}
}
