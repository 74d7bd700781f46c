import type { BudgetsResult } from '../../shared/budgets/budgets-result.ts';
import type { OriginsResult } from '../../shared/origins/origins-result.ts';
import type { Scenario } from '../../shared/scenario/scenario.ts';
import { onOwnWorkers } from './on-own-workers.ts';
import type { Pool } from './pool.ts';
import { budgetsDrives, runBudgetsInPool } from './run-budgets.ts';
import { originsDrives, runOriginsInPool } from './run-origins.ts';
import type { WorkProgress } from './run-variants.ts';
import { withLosses } from './with-losses.ts';

export interface SpreadRequest {
	readonly scenario: Scenario;
	/** Index of the operating point. */
	readonly point: number;
	/** Not empty. */
	readonly seed: string;
	/** Rows of the pick-freeze design. */
	readonly rows: number;
	/** Drives of the Monte Carlo budget. */
	readonly units: number;
	/** Cuts it short: it then resolves with what finished, marked partial. */
	readonly signal?: AbortSignal;
	/** At most ten times a second. */
	readonly onProgress?: (progress: WorkProgress) => void;
	/** Takes the origins as soon as they are there. */
	readonly onPartial?: (result: SpreadResult) => void;
}

/** Where the spread comes from, and the classical budgets of the same figure. */
export interface SpreadResult {
	readonly provenance: { readonly partial: boolean };
	readonly origins: OriginsResult;
	/** Null while they are worked out, and where it was cut short before. */
	readonly budgets: BudgetsResult | null;
}

/** Finds both, one after the other, on workers of its own. */
export const runSpread = onOwnWorkers(runSpreadInPool);

/** The same on workers that live on. */
export async function runSpreadInPool(request: SpreadRequest, pool: Pool): Promise<SpreadResult> {
	const { rows, units, onProgress = () => {}, onPartial = () => {}, ...shared } = request;
	let asked = originsDrives({ ...shared, rows, units: 0 }) + budgetsDrives({ ...shared, units });
	let before = { finished: 0, failed: 0 };
	const tell = ({ finished, failed }: typeof before): void =>
		onProgress({ asked, finished: before.finished + finished, failed: before.failed + failed });
	const origins = withLosses(await runOriginsInPool({ ...shared, rows, units: 0, onProgress: tell }, pool), pool);
	const soFar = { provenance: { partial: true }, origins, budgets: null };
	if (origins.provenance.partial) return soFar;
	onPartial(soFar);
	before = origins.provenance.units;
	asked = origins.provenance.units.asked + budgetsDrives({ ...shared, units });
	const budgets = withLosses(await runBudgetsInPool({ ...shared, units, onProgress: tell }, pool), pool);
	return { provenance: { partial: budgets.provenance.partial }, origins, budgets };
}
