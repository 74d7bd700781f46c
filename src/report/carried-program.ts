/// <reference path="./carried.d.ts" />
import type { CarriedProgram } from '../../shared/report/carried.ts';
import worker from '../../workers/browser-worker.ts?carried';
import check from './check.ts?carried';

/** What every report carries to be computed again: the engine, and what asks it. */
export const carriedProgram: CarriedProgram = { check, worker };
