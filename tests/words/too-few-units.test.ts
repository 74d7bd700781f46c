import { expect, test } from 'vitest';
import { tooFewUnits } from '../../shared/words/too-few-units.ts';

// ln 0.1/ln 0.9 = 21.9 and 0.1^(1/20) = 0.8913; ln 0.05/ln 0.95 = 58.4 and 0.05^(1/58) = 0.9497
test('20 drives are too few for 90 % with 90 % confidence, 22 are enough; 58 for 95 % with 95 %, 59 are', () => {
	expect(tooFewUnits(20, { share: 0.9, confidence: 0.9 })).toMatch(
		/^20 drives are too few to show it: even if all of them pass, they show 89\.1.%; 22 could\.$/,
	);
	expect(tooFewUnits(58, { share: 0.95, confidence: 0.95 })).toMatch(/they show 94\.9.%; 59 could/);
	expect(tooFewUnits(1, { share: 0.95, confidence: 0.95 }, 'that')).toMatch(
		/^1 drive is too few to show that: even if it passes, it shows 5\.0.%; 59 could\.$/,
	);
	expect(tooFewUnits(22, { share: 0.9, confidence: 0.9 })).toBe('');
	expect(tooFewUnits(59, { share: 0.95, confidence: 0.95 })).toBe('');
});
