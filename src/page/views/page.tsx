import type { PageModel } from '../model/page-model.ts';
import { Hatches } from '../parts/choice-mark.tsx';
import { PictureSource } from '../parts/picture-source.ts';
import { BaselineBar } from './baseline-bar.tsx';
import { CurrentView } from './current-view.tsx';
import { InputsForm } from './inputs/inputs.tsx';
import { Masthead } from './masthead.tsx';
import { ProblemList } from './problem-list.tsx';
import { Setup } from './setup.tsx';
import { ViewLinks } from './view-links.tsx';

/** The page: what is asked on the side, the answer in the middle. */
export function Page({ model }: { model: PageModel }) {
	return (
		<>
			<Hatches />
			{/* biome-ignore lint/a11y/useValidAnchor: a link within the page, kept out of the address, which is the view's */}
			<a
				class="skip"
				href="#answer"
				onClick={(event) => {
					event.preventDefault();
					document.getElementById('answer')?.focus();
				}}
			>
				Skip to the answer
			</a>
			<Masthead />
			<ViewLinks model={model} />
			<div class="bench">
				<aside class="rail">
					<Setup model={model} />
					<InputsForm model={model} />
				</aside>
				<main id="answer" tabIndex={-1}>
					<PictureSource.Provider value={() => pictureSource(model)}>
						<ProblemList file={model.source.value.file} problems={model.problems.value} />
						<BaselineBar model={model} />
						<CurrentView model={model} />
					</PictureSource.Provider>
				</main>
			</div>
			<p class="heard" role="status">
				{model.heard.value}
			</p>
		</>
	);
}

const pictureSource = ({ shown, onShow }: PageModel): string => {
	const { scenario, seed } = shown.value ?? {};
	const at = onShow.value ? `at ${onShow.value.point.name}` : '';
	return [scenario?.name, at, seed && `seed ${seed}`, 'simulated estimates'].filter(Boolean).join(' · ');
};
