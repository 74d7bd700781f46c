import type { NumberRecord } from '../parameters/parameter.ts';
import { parameters } from '../parameters/parameters.ts';
import { fileKind, isResultText, kindWords } from './file-kind.ts';
import { unknownName } from './nearest-name.ts';
import { commonTree, type ParameterTree, pointRecords } from './parameter-tree.ts';
import { isPlainLine, notPlainLine } from './plain-line.ts';
import { defaultEntry, type Entry, oneOf, readEntry } from './read-entry.ts';
import { isObject, type Json, type JsonObject, memberPath, readJson, shortened } from './read-json.ts';
import type { OperatingPoint, Problem, Report, Scenario } from './scenario.ts';
import { brokenRules } from './value-rules.ts';

export type ScenarioReading = { readonly scenario: Scenario } | { readonly problems: readonly Problem[] };

export const mostPoints = 20;
export const longestName = 80;
export const longestLesson = 2000;

/** What a scenario file states besides its parameters. */
const headNames = ['$schema', 'name', 'invented', 'lesson', 'points', 'referencePoint'];

/** What is said of a file of another kind. */
export const notScenario = (kind: 'boards' | 'result'): string => `is ${kindWords[kind]}; a scenario is needed here`;

/**
 * A scenario from the text of its file, every unit converted and every default
 * filled in; or everything that is wrong with it, at once. Never throws.
 */
export function readScenario(text: string): ScenarioReading {
	if (isResultText(text))
		return { problems: [{ path: '(file)', value: shortened(text), message: notScenario('result') }] };
	const reading = readJson(text);
	if (reading.value === undefined) return { problems: reading.problems };
	const problems: Problem[] = [...reading.problems];
	const report: Report = (path, written, message) => problems.push({ path, value: shortened(written), message });
	if (!isObject(reading.value)) {
		report(
			'(file)',
			reading.value,
			'must be an object with name, points and the parameters that differ from their defaults',
		);
		return { problems };
	}
	const file = reading.value;
	const kind = fileKind(file);
	if (kind === 'boards' || kind === 'result') {
		report('(file)', file, notScenario(kind));
		return { problems };
	}
	const common = readCommon(file, report);
	const points = readPoints(file.points, common, report);
	const names = points.map((point) => point.name);
	const reference = file.referencePoint ?? names[0];
	const referencePoint = typeof reference === 'string' ? names.indexOf(reference) : -1;
	if (referencePoint < 0 && names.length > 0) {
		const known = [...new Set(names)].filter((name) => name !== '');
		const words =
			known.length > 0 ? `must be the name of a point: ${oneOf(known)}` : 'must be the name of a point; none has one';
		report('referencePoint', reference, words);
	}
	const scenario: Scenario = {
		name: readText(file.name, 'name', longestName, report),
		invented: file.invented === true,
		lesson: file.lesson === undefined ? '' : readText(file.lesson, 'lesson', longestLesson, report),
		values: {
			...Object.fromEntries([...common].map(([id, { value }]) => [id, value])),
			...points[Math.max(0, referencePoint)]?.values,
		},
		tolerances: Object.fromEntries([...common].flatMap(([id, { tolerance }]) => (tolerance ? [[id, tolerance]] : []))),
		points,
		referencePoint,
	};
	if (file.invented !== undefined && typeof file.invented !== 'boolean') {
		report('invented', file.invented, 'must be true or false');
	}
	problems.push(...brokenRules(scenario, new Set(problems.map((problem) => problem.path))));
	return problems.length > 0 ? { problems } : { scenario };
}

/** Every parameter's common entry by id: as stated, else its default. */
function readCommon(file: JsonObject, report: Report): ReadonlyMap<string, Entry> {
	const entries = new Map(parameters.map((record) => [record.id, defaultEntry(record)]));
	const readBranch = (branch: ParameterTree, written: JsonObject, path: string, head: readonly string[]): void => {
		for (const [name, inner] of Object.entries(written)) {
			if (head.includes(name)) continue;
			const at = memberPath(path, name);
			const known = branch.get(name);
			if (known === undefined) {
				const isStated = parameters.some((p) => p.id === at);
				report(at, inner, isStated ? 'is stated at each of the points, not here' : unknownHere(name, branch, head));
			} else if ('id' in known) {
				entries.set(known.id, readEntry(known, inner, at, defaultEntry(known), report));
			} else if (isObject(inner)) {
				readBranch(known, inner, at, []);
			} else {
				report(at, inner, `must be an object with some of ${[...known.keys()].join(', ')}`);
			}
		}
	};
	readBranch(commonTree, file, '', headNames);
	return entries;
}

const unknownHere = (name: string, branch: ParameterTree, head: readonly string[]): string =>
	unknownName(
		name,
		[...branch.keys(), ...head],
		parameters.map((p) => p.id),
	);

function readPoints(written: Json | undefined, common: ReadonlyMap<string, Entry>, report: Report): OperatingPoint[] {
	if (!Array.isArray(written) || written.length === 0 || written.length > mostPoints) {
		report('points', written ?? 'not stated', `must be a list of 1 to ${mostPoints} operating points`);
		return [];
	}
	const names = new Set<string>();
	const points = written.map((item: Json, i) => {
		const path = `points[${i}]`;
		if (!isObject(item)) {
			report(path, item, 'must be an object with name, speed and torque');
			return readPoint({}, path, common, () => {});
		}
		const point = readPoint(item, path, common, report);
		if (point.name !== '' && names.has(point.name))
			report(`${path}.name`, point.name, 'is the name of an earlier point');
		names.add(point.name);
		return point;
	});
	if (points.every((point) => point.values['operation.share'] === 0)) {
		report('points', written, 'must leave at least one point a share of the hours above 0');
	}
	return points;
}

/** An operating point: what it states, else the common value and range. */
function readPoint(item: JsonObject, path: string, common: ReadonlyMap<string, Entry>, report: Report): OperatingPoint {
	const known = ['name', ...pointRecords.keys()];
	for (const name of Object.keys(item)) {
		if (!known.includes(name)) report(memberPath(path, name), item[name], unknownName(name, known));
	}
	const entries = [...pointRecords].map(([name, record]): [string, Entry] => {
		const base = common.get(record.id) ?? defaultEntry(record);
		const written = item[name];
		if (written === undefined || (isObject(written) && written.value === undefined))
			requireValue(record, `${path}.${name}`, report);
		return [record.id, written === undefined ? base : readEntry(record, written, `${path}.${name}`, base, report)];
	});
	return {
		name: readText(item.name, `${path}.name`, longestName, report),
		values: Object.fromEntries(entries.map(([id, { value }]) => [id, value as number])),
		ranges: Object.fromEntries(
			entries.flatMap(([id, { range }]) => (range && range.halfWidth > 0 ? [[id, range]] : [])),
		),
	};
}

function requireValue(record: NumberRecord, path: string, report: Report): void {
	if (record.stated) report(path, 'not stated', `every point must state its ${record.name}`);
}

function readText(written: Json | undefined, path: string, longest: number, report: Report): string {
	if (typeof written !== 'string' || written.trim() === '' || written.length > longest)
		report(path, written ?? 'not stated', `must be a text of 1 to ${longest} signs`);
	else if (!isPlainLine(written)) report(path, written, notPlainLine);
	else return written;
	return '';
}
