const page = '^src/page/';
const commandLine = '^src/command-line/';
const nodeHalf = '^(src/host|workers)/node-';

/** Imports run one way: shared ← workers ← src. What is not allowed here is an error. */
/** @type {import('dependency-cruiser').IConfiguration} */
export default {
	forbidden: [
		{
			name: 'shared-imports-only-shared',
			comment: 'The engine knows no host: it imports itself and pure libraries.',
			severity: 'error',
			from: { path: '^shared/' },
			to: {
				pathNot: '^(shared/|node_modules/(@stdlib/|@types/seedrandom/|seedrandom/|simple-statistics/|vega-lite/|zod/))',
			},
		},
		{
			name: 'charts-take-only-types-from-vega-lite',
			comment: 'A chart specification is data; drawing it is the page’s or the report’s work.',
			severity: 'error',
			from: { path: '^shared/' },
			to: { path: '^node_modules/vega-lite/', dependencyTypesNot: ['type-only'] },
		},
		{
			name: 'workers-import-only-shared',
			comment: 'A worker exposes the kernel and nothing else.',
			severity: 'error',
			from: { path: '^workers/' },
			to: { path: '.', pathNot: '^(shared|workers|node_modules)/', dependencyTypesNot: ['core'] },
		},
		{
			name: 'src-takes-only-types-from-workers',
			comment: 'Between src and workers lies a thread: types and the URL of the worker cross it, code does not.',
			severity: 'error',
			from: { path: '^src/', pathNot: '^src/report/carried-program' },
			to: { path: '^workers/', pathNot: '\\.d\\.ts$', dependencyTypesNot: ['type-only'] },
		},
		{
			name: 'page-and-command-line-apart',
			comment: 'Both build on shared, src/host and src/report; neither knows the other.',
			severity: 'error',
			from: { path: '^src/(page|command-line|host|report)/' },
			to: { path: '^src/(page|command-line)/', pathNot: '^src/$1/' },
		},
		{
			name: 'no-node-in-a-browser',
			comment: 'Only the command line, the tooling and the Node halves (node-*.ts) may use Node.',
			severity: 'error',
			from: { path: '^(shared|workers|src)/', pathNot: [commandLine, '^src/tooling/', nodeHalf] },
			to: { dependencyTypes: ['core'] },
		},
		{
			name: 'no-node-half-in-the-page',
			comment: 'The page uses the browser half of src/host.',
			severity: 'error',
			from: { path: page },
			to: { path: nodeHalf },
		},
		{
			name: 'comlink-at-the-boundary-only',
			comment: 'A call to a dead worker never settles; the files that see to it are the only ones to know comlink.',
			severity: 'error',
			from: { pathNot: '^(src/host|workers)/' },
			to: { path: '^node_modules/comlink/' },
		},
		{
			name: 'sources-import-no-tests-or-tooling',
			severity: 'error',
			from: { path: '^(shared|workers|src)/', pathNot: '^src/tooling/' },
			to: { path: '^(tests|src/tooling)/' },
		},
		{
			name: 'no-circle',
			severity: 'error',
			from: {},
			to: { circular: true },
		},
		{
			name: 'no-orphan',
			comment: 'A file that nothing imports and that imports nothing is forgotten.',
			severity: 'error',
			from: {
				orphan: true,
				pathNot: '(\\.d\\.ts$|^src/tooling/|^src/page/service-worker\\.js$|^tests/.*-worker\\.ts$)',
			},
			to: {},
		},
		{
			name: 'only-what-exists',
			severity: 'error',
			from: {},
			to: { couldNotResolve: true },
		},
		{
			name: 'only-declared-packages',
			comment: 'A package that is used stands in package.json; what is shipped uses no development packages.',
			severity: 'error',
			from: { path: '^(shared|workers|src)/', pathNot: '^src/tooling/' },
			to: { dependencyTypes: ['npm-dev', 'npm-no-pkg', 'npm-unknown'], pathNot: '^node_modules/@types/' },
		},
	],
	options: {
		doNotFollow: { path: 'node_modules' },
		exclude: { path: '^(dist|coverage)/' },
		tsPreCompilationDeps: true,
		enhancedResolveOptions: { exportsFields: ['exports'], conditionNames: ['import', 'types', 'default'] },
	},
};
