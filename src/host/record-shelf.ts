import type { UnitRecord } from '../../shared/study/point-change.ts';

/** Stands for a record that lies with the engine: its columns are too long to be sent about. */
export interface RecordTicket {
	readonly ticket: string;
}

/** Records of units by ticket, kept until they are let go. */
export function recordShelf() {
	const kept = new Map<string, UnitRecord>();
	let given = 0;
	return {
		put(record: UnitRecord): RecordTicket {
			given += 1;
			// of this thread's birth too: a ticket of one that died must stand for nothing here
			const ticket = `${performance.timeOrigin} ${given}`;
			kept.set(ticket, record);
			return { ticket };
		},
		/** Null for one that was let go, or that another thread gave. */
		at: ({ ticket }: RecordTicket): UnitRecord | null => kept.get(ticket) ?? null,
		letGo: ({ ticket }: RecordTicket): void => void kept.delete(ticket),
	};
}
