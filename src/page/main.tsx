import { render } from 'preact';
import { readScenario } from '../../shared/scenario/read-scenario.ts';
import { browserAddress } from './address.ts';
import { onFileDrop } from './drop-files.ts';
import { keepFocus } from './keep-focus.ts';
import { beginSession } from './model/kept/session.ts';
import { createPageModel } from './model/page-model.ts';
import { demoSources } from './model/scenario-source.ts';
import { fieldsNotebook, sessionNotebook } from './notebook.ts';
import { keepForOffline } from './offline.ts';
import { pageTheme } from './parts/page-theme.ts';
import { rowAt, rowInHand } from './row-at.ts';
import { studyRunner } from './study.ts';
import { onUndoKeys } from './undo-keys.ts';
import { Page } from './views/page.tsx';

const demos = demoSources(
	import.meta.glob<string>(['../../scenarios/*.json', '!../../scenarios/*.schema.json'], {
		query: '?raw',
		import: 'default',
		eager: true,
	}),
);
const store = async () => (await import('./kept-store.ts')).keptStore();
const model = createPageModel({
	demos,
	read: readScenario,
	...studyRunner(),
	address: browserAddress,
	theme: pageTheme,
	fields: fieldsNotebook,
	store,
	now: () => performance.now(),
});
const place = document.getElementById('page');
if (place) render(<Page model={model} />, place);
onFileDrop((files, on) => void model.dropFiles(files, rowAt(on) || rowInHand()));
onUndoKeys(model.inputs);
keepFocus();
void beginSession(model, sessionNotebook, store);
void keepForOffline(model.shown);
