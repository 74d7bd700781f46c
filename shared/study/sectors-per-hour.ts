import type { OperatingPoint, Scenario } from '../scenario/scenario.ts';

/** Sectors that a drive commutates in an operating hour at a point's nominal speed: six a turn, 60 minutes an hour. */
export function sectorsPerHour({ values }: Pick<Scenario, 'values'>, point: OperatingPoint): number {
	return 6 * Number(values['motor.polePairs']) * Number(point.values['operation.speed']) * 60;
}
