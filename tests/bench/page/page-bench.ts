import { spread } from '../spread.ts';
import { firstAnswer } from './first-answer.ts';
import { initialScript } from './initial-script.ts';
import { mainThreadTasks } from './main-thread.ts';
import { memoryOverRuns } from './memory-growth.ts';
import { openBuiltPage, type PageTools, startStudy, studyEnd } from './open-built-page.ts';
import type { PageBenchResult, PageBenchSize } from './page-result.ts';
import { previewDelays } from './preview-delay.ts';

const usualSize: PageBenchSize = { visits: 5, edits: 20, units: 10_000, runs: 100, unitsPerRun: 300 };

/** Measures the built page in a browser. */
export async function pageBench(
	tools: PageTools,
	say: (words: string) => void,
	size: PageBenchSize = usualSize,
): Promise<PageBenchResult> {
	const built = await openBuiltPage(tools);
	try {
		say('opening the page …');
		const visits = [];
		for (let n = 0; n < size.visits; n += 1) visits.push(await firstAnswer(built));

		say(`typing ${size.edits} edits …`);
		const edited = await built.opened();
		const delays = await previewDelays(edited, size.edits);
		await edited.context().close();

		say(`running ${size.units} drives …`);
		const busy = await built.opened();
		const tasks = await mainThreadTasks(built.browser, busy, async () => {
			await startStudy(busy, size.units, 'long');
			await studyEnd(busy);
		});
		await busy.context().close();

		say(`running ${size.runs} studies …`);
		const kept = await built.opened();
		const memory = await memoryOverRuns(built.browser, kept, size.runs, size.unitsPerRun);

		return {
			size,
			firstAnswer: spread(visits.map(({ answer, loaded }) => answer - loaded)),
			firstAnswerFromStart: spread(visits.map(({ answer }) => answer)),
			preview: spread(delays),
			longestTask: Math.max(...tasks.map(({ wall }) => wall)),
			longestTaskProcessor: Math.max(...tasks.map(({ processor }) => processor)),
			tasks: tasks.length,
			initialScript: initialScript(built.folder),
			memory,
		};
	} finally {
		await built.close();
	}
}
