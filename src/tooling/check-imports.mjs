import { pathToFileURL } from 'node:url';
import { cruise } from 'dependency-cruiser';
import extractDepcruiseOptions from 'dependency-cruiser/config-utl/extract-depcruise-options';
import { projectRoot } from './project.mjs';
import { sourceFiles } from './source-files.mjs';

const rooms = ['shared', 'workers', 'src', 'tests'];

/**
 * Holds every import below a root against the rules of .dependency-cruiser.mjs.
 * A source file that was not read is a violation too: some combinations of
 * TypeScript and the cruiser read none, and would find no fault.
 *
 * @param {string} root with a trailing slash
 * @returns {Promise<{ read: number, violations: string[] }>}
 */
export async function checkImports(root) {
	const options = await extractDepcruiseOptions(`${projectRoot}.dependency-cruiser.mjs`);
	const files = sourceFiles(root, rooms, /\.(ts|tsx|mts|mjs)$/);
	const folders = rooms.filter((room) => files.some((file) => file.startsWith(`${room}/`)));
	const { output } = await cruise(folders, { ...options, baseDir: root.slice(0, -1) });
	if (typeof output === 'string') throw new Error('the cruiser gave text where a result was expected');

	const violations = output.summary.violations.map(
		({ rule, from, to, cycle }) => `${rule.name}: ${from} → ${cycle?.map(({ name }) => name).join(' → ') ?? to}`,
	);
	const seen = new Set(output.modules.map(({ source }) => source));
	const unread = files.filter((file) => !seen.has(file)).map((file) => `not read: ${file}`);
	if (files.length === 0) unread.push('not read: there is no source file at all');
	return { read: files.filter((file) => seen.has(file)).length, violations: [...violations, ...unread] };
}

if (import.meta.url === pathToFileURL(process.argv[1] ?? '').href) {
	const { read, violations } = await checkImports(projectRoot);
	for (const violation of violations) console.error(violation);
	console.log(`${read} files read, ${violations.length} violations of the import rules`);
	process.exit(violations.length === 0 ? 0 : 1);
}
