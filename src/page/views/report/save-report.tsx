import '../../style/report.css';
import { count } from '../../../../shared/words/figures.ts';
import { askFar } from '../../ask-far.ts';
import type { PageModel } from '../../model/page-model.ts';
import { createReport, drawing, failureWords, type ReportModel } from '../../model/report/report.ts';
import { Form } from '../../parts/form.tsx';

/** The result on show as a report for a release review: what else goes into it, and the way to make and save it. */
export function SaveReport({ model }: { model: PageModel }) {
	const report = model.part('report', () => createReport(model, askFar('report'), saveHtml));
	const isWorking = report.status.value.state === 'working';
	const obstacle = report.obstacle.value;
	return (
		<section class="save-report controls" aria-labelledby="report-title">
			<h3 id="report-title">Keep it as a report</h3>
			<p class="aside">
				One page for a release review, to be read, printed and kept without this program: verdicts, pictures, tables,
				every parameter with its basis, the worst drives. It carries scenario and engine, so that a browser can compute
				its figures again.
			</p>
			<Form class="what-else" labelledBy="report-title" onSubmit={report.save}>
				<fieldset disabled={isWorking}>
					<legend>Also compute for it (minutes each; the report names what is left out)</legend>
					{report.offer.value.map(({ name, title, isChosen }) => (
						<label key={name}>
							<input
								type="checkbox"
								checked={isChosen}
								onChange={(event) => report.choose(name, event.currentTarget.checked)}
							/>
							<span>{title}</span>
						</label>
					))}
				</fieldset>
				<div class="buttons">
					{isWorking ? (
						<button type="button" onClick={report.cancel}>
							Stop
						</button>
					) : (
						<button type="submit" disabled={obstacle !== ''} aria-describedby="report-said">
							Save the report
						</button>
					)}
					<div id="report-said">
						{obstacle ? <p class="progress">{obstacle}</p> : <Making status={report.status.value} />}
					</div>
				</div>
			</Form>
			<p class="heard" role="status">
				{report.heard.value}
			</p>
		</section>
	);
}

const saveHtml = async (name: string, text: string): Promise<void> => {
	const { saveText } = await import('../../parts/save-files.ts');
	saveText(name, 'text/html', text);
};

function Making({ status }: { status: ReportModel['status']['value'] }) {
	if (status.state === 'failed') return <p class="problem">{failureWords(status.message)}</p>;
	if (status.state === 'idle') return <p class="progress">{status.note}</p>;
	if (!status.on) return <p class="progress">{drawing}</p>;
	const { title, asked, finished, failed } = status.on;
	return (
		<div class="progress">
			<progress aria-label="Drives simulated for the report" max={asked || 1} value={finished + failed} />
			<p>
				{title}: {count(finished + failed)} of {count(asked)} drives
			</p>
		</div>
	);
}
