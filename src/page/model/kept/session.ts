import { effect } from '@preact/signals';
import { version } from '../../../../shared/study/version.ts';
import type { Notebook } from '../fields.ts';
import type { PageModel } from '../page-model.ts';
import { belongs } from './belongs.ts';
import { keepPinned } from './keep-pinned.ts';
import { readRecord, workShape } from './kept-record.ts';
import type { KeptStore } from './kept-store.ts';
import type { KeptWork } from './kept-work.ts';
import { linkDetail, readLink } from './scenario-link.ts';

type Page = Pick<
	PageModel,
	'route' | 'work' | 'shown' | 'state' | 'resume' | 'follow' | 'fileProblem' | 'services' | 'against'
>;

/**
 * Begins where a link says, else where the page was left, else with the first demo; and from then on notes what is
 * asked, so that the page comes back to it.
 *
 * @param store opened when it is first wanted
 */
export async function beginSession(page: Page, notebook: Notebook, store: () => Promise<KeptStore>): Promise<void> {
	const code = page.route.details.value[linkDetail];
	if (code !== undefined) await openLink(page, code);
	else {
		const left = readNote(notebook);
		if (left) page.resume(left, await lastFigures(left, page, store), 'Figures as they were when the page was left.');
		else void page.follow();
	}
	watchLinks(page);
	noteWork(page, notebook, store);
	await keepPinned(page, store);
}

/** Opens what a link carries; a broken one is told of and leaves everything as it is. */
async function openLink(page: Page, code: string): Promise<void> {
	const { [linkDetail]: _, ...others } = page.route.details.value;
	page.route.refine(others);
	const found = await readLink(code);
	if ('problem' in found) {
		page.fileProblem.value = `The link could not be opened: ${found.problem}.`;
		if (!page.shown.value && page.state.value === 'idle') void page.follow();
		return;
	}
	const { scenario, units, seed } = found;
	page.resume({ file: 'the link', base: scenario, text: scenario, units, seed, point: 0 }, null, '');
}

function watchLinks(page: Page): void {
	effect(() => {
		const code = page.route.details.value[linkDetail];
		if (code !== undefined) void openLink(page, code);
	});
}

function readNote(notebook: Notebook): KeptWork | null {
	try {
		const note: unknown = JSON.parse(notebook.read() ?? 'null');
		return workShape(note, 'note') === null ? (note as KeptWork) : null;
	} catch {
		return null; // broken or not allowed: the page begins afresh
	}
}

/** The figures that were on show with this work; null where there are none or they are not its. */
async function lastFigures(
	work: KeptWork,
	page: Page,
	store: () => Promise<KeptStore>,
): Promise<Parameters<Page['resume']>[1]> {
	try {
		const last = (await (await store()).last()) as { readonly work?: unknown; readonly result?: unknown } | undefined;
		const read = readRecord({ id: '', name: '', note: '', keptAt: 0, work: last?.work, result: last?.result });
		if (!('record' in read)) return null;
		const { result } = read.record;
		return (await belongs(work, result, page.services.read, version)) ? result : null;
	} catch {
		return null; // they can be worked out again
	}
}

/** How long typing may go on before it is noted, ms. */
const pause = 300;

function noteWork(page: Page, notebook: Notebook, store: () => Promise<KeptStore>): void {
	let timer: ReturnType<typeof setTimeout> | undefined;
	effect(() => {
		const note = JSON.stringify(page.work.value);
		clearTimeout(timer);
		timer = setTimeout(() => {
			try {
				notebook.write(note);
			} catch {
				// full or not allowed: the page works, it only will not come back
			}
		}, pause);
	});
	let noted: unknown;
	effect(() => {
		const of = page.shown.value;
		if (!of || of.result === noted || of.result.provenance.partial) return;
		noted = of.result;
		const work = page.work.peek();
		void (async () => (await store()).setLast({ work, result: of.result }))().catch(() => {});
	});
}
