import { count } from '../../../shared/words/figures.ts';
import { timeLeft } from '../../../shared/words/time-left.ts';
import type { PageModel } from '../model/page-model.ts';
import { failureWords } from '../model/run-status.ts';

/** How far the run is, or how the last one ended. */
export function Progress({ model }: { model: PageModel }) {
	const status = model.status.value;
	if (status.state === 'previewing') {
		const { finished, asked } = status;
		return (
			<div class="progress">
				<progress aria-label="Drives of the preview" max={asked} value={finished} />
				<p>Preview: {count(finished)} drives</p>
			</div>
		);
	}
	if (status.state === 'running') {
		const { finished, failed, asked, seconds } = status;
		const left = timeLeft(seconds, finished + failed, asked);
		return (
			<div class="progress">
				<progress aria-label="Drives simulated" max={asked} value={finished + failed} />
				<p>
					{count(finished)} of {count(asked)} drives simulated
					{failed > 0 && <span class="problem">, {count(failed)} failed</span>}
					{left && `, ${left}`}
				</p>
			</div>
		);
	}
	if (status.state === 'failed') return <p class="problem">{failureWords(status.message)}</p>;
	if (status.state === 'idle') return <p class="progress">{status.note}</p>;
	return <p class="progress">Finished in {status.seconds.toFixed(1)} s.</p>;
}
