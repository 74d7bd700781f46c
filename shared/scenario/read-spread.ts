import { formatQuantity, formatRelative } from '../parameters/format-quantity.ts';
import type { Basis, ConditionRange, Distribution, NumberRecord, Tolerance } from '../parameters/parameter.ts';
import { parseQuantity } from '../parameters/quantity.ts';
import { nextTighterGrade } from '../parts/tolerance-grades.ts';
import type { Json, JsonObject } from './read-json.ts';
import type { Report } from './scenario.ts';

export const distributions: readonly Distribution[] = ['uniform', 'normal', 'triangular', 'gapped', 'measured'];
export const bases: readonly Basis[] = ['measured', 'data sheet', 'assumed'];
export const scales: readonly Scale[] = ['relative', 'absolute'];
type Scale = Tolerance['scale'];

interface Spread {
	readonly record: NumberRecord;
	readonly value: number;
	/** False where the value written was wrong and `value` stands in for it: then its limits say nothing. */
	readonly sound: boolean;
	readonly fields: JsonObject;
	readonly path: string;
	readonly report: Report;
}

/**
 * Lot and mismatch of a part. Each may be written relative ("1 %") or absolute
 * ("5 mV"); a bare number follows `scale`, else the record's own scale. The
 * result is in the record's own scale, which is what the sampler deals in.
 */
export function readTolerance(spread: Spread, base: Tolerance): Tolerance {
	const { record, fields, path, report } = spread;
	const written = writtenScale(spread);
	const width = (name: string): number | undefined => readWidth(spread, name, written);
	const measured = readMeasured(spread, written);
	const implied = fields.measured === undefined ? base.distribution : 'measured';
	const distribution = readWord(spread, 'distribution', distributions) ?? implied;
	const basis = readWord(spread, 'basis', bases) ?? (distribution === 'measured' ? 'measured' : base.basis);
	const common = { scale: ownScale(record), distribution, basis };

	if (distribution === 'measured') {
		for (const name of ['lot', 'mismatch', 'gap']) {
			if (fields[name] !== undefined) {
				report(`${path}.${name}`, fields[name], 'cannot stand beside measured deviations, which replace it');
			}
		}
		if (fields.measured === undefined) {
			report(`${path}.distribution`, fields.distribution, 'needs the list of deviations in measured');
		}
		const tolerance = { ...common, lot: 0, mismatch: 0, measured: measured ?? [0] };
		checkLimits(spread, Math.min(...tolerance.measured), Math.max(...tolerance.measured));
		return tolerance;
	}
	if (fields.measured !== undefined) {
		report(`${path}.measured`, fields.measured, `needs the distribution to be measured, not ${distribution}`);
	}
	const lot = width('lot') ?? base.lot;
	const mismatch = width('mismatch') ?? base.mismatch;
	const gap = readGap(spread, distribution, mismatch || lot, width('gap'));
	const [low, high] =
		common.scale === 'relative'
			? [lot < 1 && mismatch < 1 ? (1 - lot) * (1 - mismatch) - 1 : -1, (1 + lot) * (1 + mismatch) - 1]
			: [-lot - mismatch, lot + mismatch];
	checkLimits(spread, low, high);
	return { ...common, lot, mismatch, ...(gap !== undefined && { gap }) };
}

/** The range of a condition, none where it is exact. In the record's own scale, as tolerances are. */
export function readRange(spread: Spread, base: ConditionRange | undefined): ConditionRange | undefined {
	const halfWidth = readWidth(spread, 'range', writtenScale(spread)) ?? base?.halfWidth ?? 0;
	if (halfWidth === 0) return undefined;
	checkLimits(spread, -halfWidth, halfWidth);
	return { scale: ownScale(spread.record), halfWidth };
}

/** Temperatures and angles have no natural zero to be relative to. */
export const ownScale = ({ tolerance, range, unit }: NumberRecord): Scale =>
	tolerance?.scale ?? range?.scale ?? (unit === '°C' || unit === '°' ? 'absolute' : 'relative');

const writtenScale = (spread: Spread): Scale => readWord(spread, 'scale', scales) ?? ownScale(spread.record);

function readWord<Word extends string>(spread: Spread, name: string, words: readonly Word[]): Word | undefined {
	const { fields, path, report } = spread;
	const written = fields[name];
	if (written === undefined) return undefined;
	const word = words.find((w) => w === written);
	if (word === undefined) report(`${path}.${name}`, written, `must be one of ${words.join(', ')}`);
	return word;
}

function readWidth(spread: Spread, name: string, scale: Scale): number | undefined {
	const written = spread.fields[name];
	if (written === undefined) return undefined;
	const width = readDeviation(spread, written, `${spread.path}.${name}`, scale);
	if (width === undefined || width >= 0) return width;
	spread.report(`${spread.path}.${name}`, written, 'is a half-width and must not be negative; write 5 % for ± 5 %');
	return undefined;
}

function readMeasured(spread: Spread, scale: Scale): readonly number[] | undefined {
	const written = spread.fields.measured;
	if (written === undefined) return undefined;
	const path = `${spread.path}.measured`;
	if (!Array.isArray(written) || written.length === 0) {
		spread.report(path, written, 'must be a list of at least one deviation from the nominal value');
		return undefined;
	}
	const deviations = written.map((item: Json, i) => readDeviation(spread, item, `${path}[${i}]`, scale));
	return deviations.every((d) => d !== undefined) ? deviations : undefined;
}

/** A deviation in the record's own scale; undefined where a problem was reported. */
function readDeviation(
	{ record, value, report }: Spread,
	written: Json,
	path: string,
	scale: Scale,
): number | undefined {
	const bare = typeof written === 'number' || (typeof written === 'string' && /^[-+.\deE]+$/.test(written));
	const share = typeof written === 'string' && /(%|ppm)\s*$/.test(written);
	const writtenAs = bare ? scale : share ? 'relative' : 'absolute';
	const quantity = parseQuantity(written, writtenAs === 'relative' ? '1' : record.unit);
	if ('problem' in quantity) {
		report(path, written, `${quantity.problem}${writtenAs === 'absolute' && !bare ? ', or a percentage' : ''}`);
		return undefined;
	}
	const own = ownScale(record);
	if (writtenAs === own) return quantity.value;
	if (value === 0 || record.unit === '°C') {
		const why = record.unit === '°C' ? 'a temperature has no percentage' : 'the nominal value is 0';
		report(path, written, `cannot be turned from ${writtenAs} to ${own}: ${why}`);
		return undefined;
	}
	return own === 'relative' ? quantity.value / Math.abs(value) : quantity.value * Math.abs(value);
}

function readGap(
	spread: Spread,
	distribution: Distribution,
	width: number,
	stated: number | undefined,
): number | undefined {
	const { record, fields, path, report } = spread;
	if (distribution !== 'gapped') {
		if (fields.gap !== undefined) {
			report(`${path}.gap`, fields.gap, `needs the distribution to be gapped, not ${distribution}`);
		}
		return undefined;
	}
	const gap = stated ?? (ownScale(record) === 'relative' ? nextTighterGrade(width) : undefined);
	if (gap !== undefined && gap < width) return gap;
	const message =
		gap === undefined
			? 'no tighter grade is known: state gap, the half-width that was picked out'
			: `must be smaller than the tolerance it was picked out of (${ownScale(record) === 'relative' ? formatRelative(width) : formatQuantity(width, record.unit)})`;
	report(`${path}.gap`, fields.gap ?? 'not stated', message);
	return undefined;
}

/** The farthest that the parameter can be built or run must still be within its record's limits. */
function checkLimits({ record, value, sound, fields, path, report }: Spread, low: number, high: number): void {
	const { name, unit, min, max } = record;
	const reach = (deviation: number): number =>
		ownScale(record) === 'relative' ? value * (1 + deviation) : value + deviation;
	const least = Math.min(reach(low), reach(high));
	const most = Math.max(reach(low), reach(high));
	if (!sound || (least >= min && most <= max)) return;
	const shown = (number: number): string => formatQuantity(Number(number.toPrecision(4)), unit);
	const isCondition = record.role === 'condition';
	// nobody finds a range in the file that the file does not state
	const source =
		isCondition && fields.range === undefined ? '; none is stated, so this is its default: state a smaller one' : '';
	const message = `${name} with its ${isCondition ? 'range' : 'spread'} must stay from ${shown(min)} to ${shown(max)}${source}`;
	report(path, `${shown(least)} to ${shown(most)}`, message);
}
