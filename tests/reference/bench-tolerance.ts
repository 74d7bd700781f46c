import type { OdexOptions } from './odex-run.ts';

/**
 * The loosest decade at which odex keeps all 23 boards of the reference traces
 * within 0.005° (0.0007° measured; at 10⁻⁴ one board is 4° off). Five columns
 * are as exact there as nine, and a tenth faster.
 */
export const benchTolerance: OdexOptions = { absolute: 1e-5, relative: 1e-5, columns: 5 };
