import { readFileSync } from 'node:fs';
import type { KeptRecord } from '../../../src/page/model/kept/kept-record.ts';
import type { KeptStore } from '../../../src/page/model/kept/kept-store.ts';
import type { KeptWork } from '../../../src/page/model/kept/kept-work.ts';
import { projectRoot } from '../../../src/tooling/project.mjs';
import { studyResult } from '../study-fixture.ts';

export const demoText = (file: string): string => readFileSync(`${projectRoot}scenarios/${file}`, 'utf8');

export const work = (over: Partial<KeptWork> = {}): KeptWork => {
	const text = demoText('fan-24v.json');
	return { file: 'fan-24v.json', base: text, text, units: '1000', seed: 'demo', point: 0, ...over };
};

export const record = (over: Partial<KeptRecord> = {}): KeptRecord => ({
	id: 'one',
	name: 'Before',
	note: '',
	keptAt: 1_700_000_000_000,
	work: work(),
	result: studyResult(),
	...over,
});

/** A store in memory. */
export function memoryStore(kept: unknown[] = []): KeptStore & {
	kept: unknown[];
	lastKept: unknown;
	pinned: unknown;
	answered: Map<string, unknown>;
} {
	return {
		kept,
		lastKept: undefined,
		pinned: undefined,
		answered: new Map(),
		async all() {
			return this.kept;
		},
		async put(next) {
			this.kept = [...this.kept.filter((one) => (one as { id?: string }).id !== next.id), next];
		},
		async remove(id) {
			this.kept = this.kept.filter((one) => (one as { id?: string }).id !== id);
		},
		async last() {
			return this.lastKept;
		},
		async setLast(last) {
			this.lastKept = last;
		},
		async baseline() {
			return this.pinned;
		},
		async setBaseline(pinned) {
			this.pinned = pinned ?? undefined;
		},
		async answers(question) {
			return structuredClone(this.answered.get(question));
		},
		async changeAnswers(question, change) {
			this.answered.set(question, structuredClone(change(structuredClone(this.answered.get(question)))));
		},
	};
}
