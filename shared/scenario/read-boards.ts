import type { Deviations } from '../drive/build-drive.ts';
import { formatQuantity } from '../parameters/format-quantity.ts';
import { isRequirement, type NumberRecord } from '../parameters/parameter.ts';
import { parameterById, parameters } from '../parameters/parameters.ts';
import { parseQuantity } from '../parameters/quantity.ts';
import { defaultValues } from './default-values.ts';
import { fileKind, kindWords } from './file-kind.ts';
import { unknownName } from './nearest-name.ts';
import { isPlainLine, notPlainLine } from './plain-line.ts';
import { exactReach } from './reach.ts';
import { readValue } from './read-entry.ts';
import { isObject, type Json, type JsonObject, memberPath, readJson, shortened } from './read-json.ts';
import { ownScale } from './read-spread.ts';
import type { Problem, Report, Values } from './scenario.ts';
import { breaches } from './value-rules.ts';

/** One board to be simulated as it stands: nominal values and how its parts deviate from them. */
export interface Board {
	/** As the file numbers it. */
	readonly case: number | string;
	/** Every parameter by id; the compensation is a time. */
	readonly values: Values;
	readonly deviations: Deviations;
}

/** `unused`: ids that a board states although nothing of it acts on a single run without noise. */
export type BoardsReading =
	| { readonly boards: readonly Board[]; readonly unused: readonly string[] }
	| { readonly problems: readonly Problem[] };

/** s, where a board states none: `nominal` needs a population of carrier phases, a board is a single run. */
const defaultCompensation = 75e-6;
const phaseNames = ['pwmPhase', 'ripplePhase', 'ringPhase'];

/** Parts, and the conditions that vary by default. */
const deviating: ReadonlyMap<string, NumberRecord> = new Map(
	parameters
		.filter((p): p is NumberRecord => p.kind !== 'choice' && (p.role === 'part' || p.range !== undefined))
		.map((p) => [p.id, p]),
);

/** What many runs, noise, counts of false crossings or a verdict are made of. */
const isUnused = (id: string): boolean =>
	['noise.sigma', 'noise.ringPhaseSpread', 'trial.starts', 'trial.falseMargin', 'operation.share'].includes(id) ||
	isRequirement({ id });

/**
 * Boards from the text of a file `{"cases": [{"case", "parameters", "deviations"}, …]}`,
 * parameters and deviations by id; or everything that is wrong with it, at once.
 * A case's `expected` and an `about` are left unread. Never throws.
 */
export function readBoards(text: string): BoardsReading {
	const reading = readJson(text, { longest: 16 * 1024 * 1024 });
	if (reading.value === undefined) return { problems: reading.problems };
	const problems: Problem[] = [...reading.problems];
	const report: Report = (path, written, message) => problems.push({ path, value: shortened(written), message });
	const kind = fileKind(reading.value);
	if (kind === 'scenario' || kind === 'result') {
		report('(file)', reading.value, `is ${kindWords[kind]}; board takes a list of boards`);
		return { problems };
	}
	const file = members(reading.value, '(file)', ['cases', 'about', '$schema'], report);
	const cases = file.cases;
	if (!Array.isArray(cases) || cases.length === 0) {
		report('cases', cases ?? 'not stated', 'must be a list of at least one board');
		return { problems };
	}
	const boards = cases.map((item: Json, i) => readBoard(item, i, report));
	const stated = cases.flatMap((item: Json) =>
		isObject(item) && isObject(item.parameters) ? Object.keys(item.parameters) : [],
	);
	return problems.length > 0 ? { problems } : { boards, unused: [...new Set(stated)].filter(isUnused) };
}

function readBoard(item: Json, index: number, report: Report): Board {
	const path = `cases[${index}]`;
	const board = members(item, path, ['case', 'parameters', 'deviations', 'expected', 'about'], report);
	if (board.case !== undefined && typeof board.case !== 'number' && typeof board.case !== 'string') {
		report(`${path}.case`, board.case, 'must be a number or a text');
	} else if (typeof board.case === 'string' && !isPlainLine(board.case)) {
		report(`${path}.case`, board.case, notPlainLine);
	}
	let sound = true;
	const watching: Report = (...problem) => {
		sound = false;
		report(...problem);
	};
	const values = readValues(board.parameters ?? {}, `${path}.parameters`, watching);
	if (sound) {
		for (const { ids, value, message } of breaches(exactReach(values)))
			watching(`${path}.parameters.${ids[0]}`, value, message);
	}
	const deviations = readDeviations(board.deviations ?? {}, `${path}.deviations`, values, report);
	return { case: (board.case as number | string | undefined) ?? index + 1, values, deviations };
}

/** An object's members; names that are not known, and anything but an object, are problems. */
function members(item: Json, path: string, known: readonly string[], report: Report): JsonObject {
	if (!isObject(item)) {
		report(path, item, `must be an object with some of ${known.join(', ')}`);
		return {};
	}
	for (const name of Object.keys(item)) {
		if (!known.includes(name)) report(memberPath(path, name), item[name], unknownName(name, known));
	}
	return item;
}

function readValues(written: Json, path: string, report: Report): Values {
	const ids = parameters.map((p) => p.id);
	const values: Record<string, number | string> = { ...defaultValues(), 'detection.compensation': defaultCompensation };
	for (const [id, value] of Object.entries(members(written, path, ids, report))) {
		const record = parameterById.get(id);
		if (!record) continue;
		const found = readValue(record, value, `${path}.${id}`, report);
		if (found !== undefined) values[id] = found;
	}
	if (typeof values['detection.compensation'] !== 'number') {
		report(
			`${path}.detection.compensation`,
			values['detection.compensation'],
			'must be a time, such as 75 µs, for a single board',
		);
	}
	return values;
}

function readDeviations(written: Json, path: string, values: Values, report: Report): Deviations {
	const known = [...deviating.keys(), ...phaseNames];
	const found: Record<string, number | readonly number[]> = {};
	for (const [id, deviation] of Object.entries(members(written, path, known, report))) {
		const record = deviating.get(id);
		if (!record && !phaseNames.includes(id)) continue;
		const read = (item: Json, at: string): number =>
			record ? readDeviation(record, item, at, values[id], report) : readPhase(item, at, report);
		if (!Array.isArray(deviation)) {
			found[id] = read(deviation as Json, `${path}.${id}`);
			continue;
		}
		const instances = record?.instances ?? 1;
		if (deviation.length !== instances) {
			const wanted = instances === 1 ? 'a single number' : `a single number or a list of ${instances}`;
			report(`${path}.${id}`, deviation, `must be ${wanted}`);
		}
		found[id] = deviation.map((item: Json, i) => read(item, `${path}.${id}[${i}]`));
	}
	return found;
}

/** A deviation that leaves the part within its limits; relative or in the parameter's unit, as `buildDrive` takes it. */
function readDeviation(
	record: NumberRecord,
	written: Json,
	path: string,
	nominal: number | string | undefined,
	report: Report,
): number {
	const relative = ownScale(record) === 'relative';
	const quantity = parseQuantity(written, relative ? '1' : record.unit);
	if ('problem' in quantity) {
		report(path, written, quantity.problem);
		return 0;
	}
	const built = relative ? Number(nominal) * (1 + quantity.value) : Number(nominal) + quantity.value;
	if (built < record.min || built > record.max) {
		const [min, max, got] = [record.min, record.max, Number(built.toPrecision(4))].map((v) =>
			formatQuantity(v, record.unit),
		);
		report(path, written, `makes the ${record.name} ${got}; it must be from ${min} to ${max}`);
	}
	return quantity.value;
}

function readPhase(written: Json, path: string, report: Report): number {
	if (typeof written === 'number' && written >= 0 && written <= 1) return written;
	report(path, written, 'must be a number from 0 to 1, a share of a turn');
	return 0;
}
