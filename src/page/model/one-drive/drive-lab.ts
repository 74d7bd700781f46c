import type { DriveRequest } from '../../../../shared/one-drive/drive-request.ts';
import type { DriveWindow, WindowRequest } from '../../../../shared/one-drive/drive-window.ts';
import type { PairOutcome } from '../../../../shared/one-drive/unit-outcomes.ts';
import type { StudyPlan } from '../../../../shared/study/plan.ts';

/** Where single drives are simulated again. Everything rejects with the reason in words where it cannot be done. */
export interface DriveLab {
	/** Every start of a unit at every point: point · starts + start. */
	outcomes(plan: StudyPlan, unit: number): Promise<readonly PairOutcome[]>;
	/** A drive as it is, then with each disturbance taken out. */
	causes(request: DriveRequest): Promise<readonly PairOutcome[]>;
	window(request: WindowRequest): Promise<DriveWindow>;
}
