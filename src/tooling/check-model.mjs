import { ensureInstalled } from './ensure-installed.mjs';
import { loadFromTests } from './load-from-tests.mjs';
import { projectRoot, say } from './project.mjs';

/*
 * node src/tooling/check-model.mjs [--write]
 *
 * Holds the engine against every figure that is known from outside it.
 */
try {
	await ensureInstalled();
	const { checkModel } = await loadFromTests('check-model', 'tests/model-checks/check-model.command.ts');
	process.exitCode = checkModel(process.argv.slice(2), `${projectRoot}shared/model-checks/model-checks.json`);
} catch (error) {
	say(error instanceof Error ? (error.stack ?? error.message) : String(error));
	process.exitCode = 1;
}
