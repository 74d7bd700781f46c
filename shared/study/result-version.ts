/**
 * Versions of a study's result file. A new one where a file gains, loses or
 * renames something; what is read of older ones is in `results/read-result.ts`.
 *
 * 1: figures alone; a figure that is infinite or does not exist is null.
 * 2: also the resolved scenario, every unit's columns and a digest over all of it; infinite figures are 1e999.
 * 3: also how the two choices differ drive by drive, counted in bins (`points[].paired.differences`).
 */
export const resultVersions = [1, 2, 3] as const;
export type ResultVersion = (typeof resultVersions)[number];

/** The one that is written. */
export const resultVersion = 3 satisfies ResultVersion;
