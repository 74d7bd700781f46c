import { expect, test } from 'vitest';
import { parameter } from '../../../shared/parameters/parameters.ts';
import { pathWords, valueAt, withValueAt } from '../../../src/page/model/inputs/document.ts';
import { fieldText, withField } from '../../../src/page/model/inputs/entry.ts';

const document = { name: 'x', sensing: { divider: { top: '22k' } }, points: [{ name: 'a', speed: 900 }] };

test('a value is replaced where it stands, and nothing else is copied or moved', () => {
	const next = withValueAt(document, ['points', 0, 'speed'], '1000 rpm');
	expect(next).toEqual({ ...document, points: [{ name: 'a', speed: '1000 rpm' }] });
	expect(next.sensing).toBe(document.sensing);
	expect(Object.keys(next)).toEqual(['name', 'sensing', 'points']);
	expect(document.points[0]?.speed).toBe(900);
});

test('objects on the way are made, and vanish with their last member', () => {
	const next = withValueAt(document, ['noise', 'sigma'], '5 mV');
	expect(valueAt(next, ['noise', 'sigma'])).toBe('5 mV');
	expect(withValueAt(next, ['noise', 'sigma'], undefined)).toEqual(document);
	expect(withValueAt(document, ['sensing', 'divider', 'top'], undefined)).toEqual({
		name: 'x',
		points: document.points,
	});
});

test('a point that is not there cannot be edited, names of every object are only what the file says', () => {
	expect(() => withValueAt(document, ['points', 3, 'speed'], 1)).toThrow(RangeError);
	expect(valueAt(document, ['constructor'])).toBeUndefined();
	expect(pathWords(['points', 1, 'speed'])).toBe('points[1].speed');
});

test('a tolerance typed beside a plain value makes an object of the entry; the value alone leaves it plain', () => {
	const path = ['sensing', 'divider', 'top'];
	expect(valueAt(withField(document, path, 'value', '33k'), path)).toBe('33k');
	const withTolerance = withField(document, path, 'mismatch', '0.1 %');
	expect(valueAt(withTolerance, path)).toEqual({ value: '22k', mismatch: '0.1 %' });
	expect(valueAt(withField(withTolerance, path, 'value', '33k'), path)).toEqual({ value: '33k', mismatch: '0.1 %' });
});

test.each([
	['sensing.divider.top', 'value', '4k7', '4.7 kΩ'],
	['sensing.divider.capacitor', 'value', 470e-12, '470 pF'],
	['sensing.divider.top', 'mismatch', 0.01, '1 %'],
	['sensing.comparator.offset', 'mismatch', '5 mV', '5 mV'],
	['motor.flatTop', 'lot', 3, '3°'],
	['sensing.converter.bits', 'value', 'none', 'none'],
	['requirement.quantile', 'value', '95 %', '95 %'],
	['detection.position', 'value', 0.9, '0.9'],
	['sensing.divider.top', 'value', 'twenty', 'twenty'],
] as const)('%s %s written as %s is shown as %s', (id, field, written, shown) => {
	const entry = field === 'value' ? written : { value: 1, [field]: written };
	expect(fieldText(parameter(id), field, entry)).toBe(shown);
});
