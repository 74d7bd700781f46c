import { computed, type ReadonlySignal, signal } from '@preact/signals';
import { isObject, type Json, type JsonObject, readJson } from '../../../../shared/scenario/read-json.ts';
import { errorMessage } from '../../../../shared/words/error-message.ts';
import type { Reading } from '../services.ts';
import { type DocumentPath, valueAt, withValueAt } from './document.ts';
import { type FieldName, fieldsOf, withField } from './entry.ts';
import { advance, begin, type History, paused, redone, undone } from './history.ts';
import { measuredEntry } from './measured-part.ts';
import { type InputRow, inputRows } from './rows.ts';

/**
 * The scenario as it is edited: the document that was opened, the document as
 * it stands, and the steps between. Its reading, problems and all, is the
 * scenario reader's; nothing is checked twice.
 *
 * @param read the scenario reader
 * @param onEdit told of every change of the document that makes another scenario
 */
export function createInputs(read: (text: string) => Reading, onEdit: () => void) {
	/** The text as opened: its own problems hold until it is edited. */
	const text = signal('');
	const base = signal<JsonObject | null>(null);
	const history = signal<History<JsonObject | null>>(begin<JsonObject | null>(null));
	/** Counts the times that the document changed other than by typing, so that fields take up the new text. */
	const restored = signal(0);
	/** The row being edited, by its key; '' for none. It stays while something else of its section is used. */
	const focused = signal('');
	const openSection = signal('sensing');
	/** Why a file of measured values was not taken, and for which row. */
	const measuredProblems = signal<{
		readonly key: string;
		readonly file: string;
		readonly problems: readonly string[];
	} | null>(null);
	/** The tolerances of the scenario as opened, where it was in order. */
	const before = computed(() => {
		const first = readOpened(text.value);
		return 'scenario' in first ? first.scenario.tolerances : {};
	});
	const readings = new WeakMap<JsonObject, Reading>();

	const document = computed(() => history.value.present);
	const reading: ReadonlySignal<Reading> = computed(() => {
		const present = document.value;
		if (!present || present === base.value) return readOpened(text.value);
		return readingOf(present);
	});
	const problems = computed(() => ('problems' in reading.value ? reading.value.problems : []));
	const sections = computed(() =>
		document.value && base.value
			? inputRows({ document: document.value, base: base.value, problems: problems.value })
			: [],
	);
	const rows = computed(() => sections.value.flatMap(({ groups }) => groups.flatMap((group) => group.rows)));

	let opened: { readonly text: string; readonly reading: Reading } | null = null;
	function readOpened(current: string): Reading {
		if (opened?.text !== current) opened = { text: current, reading: read(current) };
		return opened.reading;
	}
	/** Read once a document: going back to one gives the very same scenario. */
	function readingOf(of: JsonObject): Reading {
		const known = readings.get(of) ?? read(JSON.stringify(of));
		readings.set(of, known);
		return known;
	}

	function step(next: JsonObject, words: string, kind = ''): void {
		history.value = advance(history.value, next, words, kind);
		onEdit();
	}
	function move(next: History<JsonObject | null>): void {
		if (next === history.value) return;
		history.value = next;
		restored.value += 1;
		onEdit();
	}

	return {
		base,
		document,
		reading,
		problems,
		sections,
		rows,
		restored,
		focused,
		openSection,
		measuredProblems,
		tolerancesBefore: before,
		readingOf,
		/** The scenario file as it stands, to be saved or shared. */
		text: computed(() =>
			document.value && document.value !== base.value ? `${JSON.stringify(document.value, null, '\t')}\n` : text.value,
		),
		changes: computed(() => rows.value.filter((row) => row.was !== null).length),
		undoWords: computed(() => history.value.past.at(-1)?.words ?? ''),
		redoWords: computed(() => history.value.future[0]?.words ?? ''),
		/**
		 * Takes a scenario file's text as the new beginning.
		 *
		 * @param edited what had become of it when it was left, if it is taken up again
		 */
		open(next: string, edited = next): void {
			const { value } = readJson(next);
			text.value = next;
			base.value = isObject(value) ? value : null;
			focused.value = '';
			measuredProblems.value = null;
			history.value = begin(base.value);
			const present = edited === next ? undefined : readJson(edited).value;
			if (isObject(present)) history.value = advance(history.value, present, 'the edits of before');
			restored.value += 1;
		},
		/** Another text in a field of the form; keys typed in one field in a row are one step. */
		type(row: InputRow, field: FieldName, typed: string): void {
			const present = document.value;
			if (!present) return;
			const next = field === 'distribution' ? distributed(present, base.value, row.path, typed) : undefined;
			step(
				next ?? withField(present, row.path, field, typed),
				`${row.record.name}${field === 'value' ? '' : `, ${field}`}`,
				field === 'distribution' ? '' : `${row.key} ${field}`,
			);
			if (field === 'distribution') restored.value += 1;
		},
		/** A whole entry at once, as a helper or a file of measured values makes it. */
		put(row: Pick<InputRow, 'path' | 'record'>, entry: Json | undefined, words: string): void {
			if (!document.value) return;
			step(withValueAt(document.value, row.path, entry), words);
			restored.value += 1;
		},
		/** A field at once, as a helper sets it. */
		set(row: InputRow, field: FieldName, written: string): void {
			if (!document.value) return;
			step(withField(document.value, row.path, field, written), `${row.record.name}, ${field}`);
			restored.value += 1;
		},
		/** A row as it was when the scenario was opened. */
		resetRow(row: InputRow): void {
			if (!document.value || !base.value) return;
			const before = valueAt(base.value, row.path);
			step(withValueAt(document.value, row.path, before), `reset of ${row.record.name}`);
			restored.value += 1;
		},
		/** Everything as it was when the scenario was opened; can be taken back. */
		reset(): void {
			if (!base.value || document.value === base.value) return;
			step(base.value, 'reset');
			restored.value += 1;
		},
		/** Puts measured values in place of a part's assumed distribution, or says what is wrong with them. */
		async measure(row: InputRow, file: { readonly name: string; text(): Promise<string> }): Promise<void> {
			measuredProblems.value = null;
			const refuse = (problems: readonly string[]): void => {
				measuredProblems.value = { key: row.key, file: file.name, problems };
			};
			let content: string;
			try {
				content = await file.text();
			} catch (error) {
				return refuse([`cannot be read: ${errorMessage(error)}`]);
			}
			const present = document.value;
			if (!present) return;
			const made = measuredEntry(row, valueAt(present, row.path), content);
			focused.value = row.key;
			if ('problems' in made) return refuse(made.problems);
			step(withValueAt(present, row.path, made.entry), `${row.record.name}, measured`);
			restored.value += 1;
		},
		undo: () => move(undone(history.value)),
		redo: () => move(redone(history.value)),
		focus(key: string): void {
			focused.value = key;
			if (measuredProblems.value?.key !== key) measuredProblems.value = null;
			history.value = paused(history.value);
		},
	};
}

/** Another distribution: measured deviations stand beside none but their own, and what they replaced comes back. */
function distributed(
	document: JsonObject,
	base: JsonObject | null,
	path: DocumentPath,
	distribution: string,
): JsonObject {
	const { measured, gap: _gap, ...fields } = fieldsOf(valueAt(document, path));
	if (measured === undefined || distribution === 'measured') {
		return withValueAt(document, path, { ...fields, ...(measured !== undefined && { measured }), distribution });
	}
	const { lot, mismatch, scale } = fieldsOf(base ? valueAt(base, path) : undefined);
	return withValueAt(document, path, {
		...fields,
		...(lot !== undefined && { lot }),
		...(mismatch !== undefined && { mismatch }),
		...(scale !== undefined && { scale }),
		distribution,
	});
}
