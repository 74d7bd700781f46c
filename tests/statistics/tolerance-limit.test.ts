import { expect, it } from 'vitest';
import { toleranceLimitUnits } from '../../shared/statistics/tolerance-limit.ts';

it('refuses to cover everything', () => {
	expect(() => toleranceLimitUnits(1, 0.95)).toThrow(RangeError);
	expect(() => toleranceLimitUnits(0.95, 0.95, 0)).toThrow(RangeError);
});
