import type { PageModel } from '../model/page-model.ts';
import { Hatches } from '../parts/choice-mark.tsx';
import { Masthead } from './masthead.tsx';
import { ProblemList } from './problem-list.tsx';
import { Setup } from './setup.tsx';
import { WhichChoice } from './which-choice/which-choice.tsx';

/** The page: what is asked on the side, the answer in the middle. */
export function Page({ model }: { model: PageModel }) {
	return (
		<>
			<Hatches />
			<a class="skip" href="#answer">
				Skip to the answer
			</a>
			<Masthead />
			<div class="bench">
				<aside class="rail">
					<Setup model={model} />
				</aside>
				<main id="answer" tabIndex={-1}>
					<ProblemList file={model.source.value.file} problems={model.problems.value} />
					<WhichChoice model={model} />
				</main>
			</div>
			<p class="heard" role="status">
				{model.heard.value}
			</p>
		</>
	);
}
