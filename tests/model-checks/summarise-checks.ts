import type { ModelChecksSummary } from '../../shared/model-checks/model-checks-summary.ts';
import { version } from '../../shared/study/version.ts';
import type { CheckKind, CheckOutcome } from './model-check.ts';

export function summariseChecks(outcomes: readonly CheckOutcome[]): ModelChecksSummary {
	const ofKind = (kind: CheckKind): number => outcomes.filter(({ check }) => check.kind === kind).length;
	return {
		version,
		checks: outcomes.length,
		held: outcomes.filter(({ holds }) => holds).length,
		published: ofKind('published'),
		closedForms: ofKind('closed form'),
		independent: ofKind('independent computation'),
	};
}
