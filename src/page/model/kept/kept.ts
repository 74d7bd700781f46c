import { computed, effect, type ReadonlySignal, signal } from '@preact/signals';
import { version } from '../../../../shared/study/version.ts';
import { errorMessage } from '../../../../shared/words/error-message.ts';
import { count } from '../../../../shared/words/figures.ts';
import type { PageModel } from '../page-model.ts';
import { whatIsMissing } from '../whole-result.ts';
import { belongs } from './belongs.ts';
import { compareRecords } from './compare.ts';
import { type KeptRecord, longestName, longestNote, readRecord, type StoredRecord } from './kept-record.ts';
import type { KeptStore } from './kept-store.ts';
import { linkTo } from './scenario-link.ts';

export type Kept = ReturnType<typeof createKept>;

type Page = Pick<PageModel, 'shown' | 'request' | 'work' | 'resume' | 'services' | 'state'>;

/** Everything of the view "what do we keep": the link, what is kept in this browser, and two of them side by side. */
export function createKept(
	{ shown, request, work, resume, services, state }: Page,
	store: KeptStore,
	{ now = Date.now, newId = () => crypto.randomUUID() }: { now?: () => number; newId?: () => string } = {},
) {
	const stored = signal<readonly StoredRecord[]>([]);
	const problem = signal('');
	const said = signal('');
	const nameTyped = signal<string | null>(null);
	const note = signal('');
	const chosen = signal<readonly string[]>([]);
	const link = signal('');

	/** Does something with the store; says so in words where it cannot be done. */
	async function withStore(what: string, work: () => Promise<void>): Promise<void> {
		try {
			await work();
			problem.value = '';
		} catch (error) {
			problem.value = `${what}: ${errorMessage(error)}`;
		}
	}
	const refresh = (): Promise<void> =>
		withStore('The kept results could not be read', async () => {
			const found = (await store.all()).map(readRecord);
			stored.value = found.sort((one, other) => keptAt(other) - keptAt(one));
		});
	void refresh();

	// the newest inputs' link only: packing takes its time
	let asked = 0;
	effect(() => {
		const { text: scenario, units, seed } = work.value;
		asked += 1;
		const own = asked;
		linkTo({ scenario, units, seed }).then(
			(made) => {
				if (own === asked) link.value = made;
			},
			() => {
				if (own === asked) link.value = '';
			},
		);
	});

	const obstacle = whatIsMissing({ shown, request, state });
	const name = computed(() => {
		const of = shown.value;
		return nameTyped.value ?? (of ? `${of.scenario.name}, ${count(of.units)} drives` : '');
	});
	const records = computed(() => stored.value.flatMap((one) => ('record' in one ? [one.record] : [])));

	return {
		stored: stored as ReadonlySignal<readonly StoredRecord[]>,
		records,
		problem,
		/** What was done last, for those who listen. */
		said,
		name,
		note,
		link,
		obstacle,
		chosen,
		comparison: computed(() => {
			const [first, second] = chosen.value.map((id) => records.value.find((record) => record.id === id));
			return first && second ? { first, second, ...compareRecords(first, second, services.read) } : null;
		}),
		typeName: (typed: string) => {
			nameTyped.value = typed.slice(0, longestName);
		},
		typeNote: (typed: string) => {
			note.value = typed.slice(0, longestNote);
		},
		/** Keeps the figures on show with their inputs. */
		async keep(): Promise<void> {
			const of = shown.value;
			if (!of || obstacle.value !== '') return;
			const record: KeptRecord = {
				id: newId(),
				name: name.value.trim().slice(0, longestName) || of.scenario.name,
				note: note.value.trim(),
				keptAt: now(),
				work: work.value,
				result: of.result,
			};
			await withStore('The result could not be kept', async () => {
				await store.put(record);
				await refresh();
				nameTyped.value = null;
				note.value = '';
				said.value = `Kept as “${record.name}”.`;
			});
		},
		/** Another name or note for a kept result. */
		rename: (record: KeptRecord, to: { readonly name: string; readonly note: string }) =>
			withStore('The change could not be kept', async () => {
				const named = { ...record, name: to.name.trim().slice(0, longestName) || record.name, note: to.note.trim() };
				await store.put(named);
				await refresh();
				said.value = `Changed “${named.name}”.`;
			}),
		/** Brings a kept result back: its inputs and, where they are this version's, its figures. */
		async open(record: KeptRecord): Promise<void> {
			const isWhole = await belongs(record.work, record.result, services.read, version);
			resume(record.work, isWhole ? record.result : null, `Figures kept as “${record.name}”.`);
			said.value = isWhole
				? `Opened “${record.name}”.`
				: `Opened the inputs of “${record.name}”. Its figures were not made by this version from these inputs: they are worked out anew.`;
		},
		remove: (id: string) =>
			withStore('The kept result could not be removed', async () => {
				await store.remove(id);
				chosen.value = chosen.value.filter((other) => other !== id);
				await refresh();
				said.value = 'Removed.';
			}),
		/** Lays a kept result beside another; a third takes the place of the first. */
		choose(id: string, isChosen: boolean): void {
			const others = chosen.value.filter((other) => other !== id);
			chosen.value = isChosen ? [...others.slice(-1), id] : others;
		},
		say: (words: string) => {
			said.value = words;
		},
	};
}

const keptAt = (stored: StoredRecord): number => ('record' in stored ? stored.record.keptAt : 0);
