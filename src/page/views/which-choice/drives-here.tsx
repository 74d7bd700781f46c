import { useEffect, useRef } from 'preact/hooks';
import { choiceNames } from '../../../../shared/drive/drive.ts';
import { choiceWords } from '../../../../shared/words/names.ts';
import type { PageModel } from '../../model/page-model.ts';
import { ChoiceMark } from '../../parts/choice-mark.tsx';

/** The drives behind a place that was picked in the error pictures or their table, each with the way to look into it. */
export function DrivesHere({ model: { drivesHere } }: { model: PageModel }) {
	const panel = useRef<HTMLElement>(null);
	const here = drivesHere.here.value;
	const isFound = here?.state === 'found';
	const pickedWith = useRef<HTMLElement | null>(null);
	useEffect(() => {
		const { activeElement } = document;
		if (!isFound || !(activeElement instanceof HTMLElement) || !activeElement.matches('.errors .bin')) return;
		// who picked from the table by keyboard goes on from the list
		pickedWith.current = activeElement;
		panel.current?.querySelector('a')?.focus();
	}, [here]);
	const leave = (): void => {
		drivesHere.leave();
		pickedWith.current?.focus();
		pickedWith.current = null;
	};
	if (!here)
		return <p class="aside">Click a place in a picture, or pick one in the table, to see whose errors lie there.</p>;
	return (
		<section
			ref={panel}
			class="drives-here"
			aria-live="polite"
			aria-label={`Drives at ${here.range}`}
			onKeyDown={({ key }) => {
				if (key === 'Escape') leave();
			}}
		>
			<p>
				<strong>At {here.range}</strong>
				<button type="button" class="quiet" onClick={leave}>
					Close
				</button>
			</p>
			{here.state === 'looking' && <p class="aside">Looking up the drives …</p>}
			{here.state === 'none' && <p class="aside">{here.words}</p>}
			{here.state === 'found' &&
				choiceNames.map((choice) => (
					<p key={choice}>
						<ChoiceMark choice={choice} /> {choiceWords[choice]}:{' '}
						{here.choices[choice].map(({ words, link }, i) => (
							<span key={words}>
								{i > 0 && ', '}
								<a href={link}>{words}</a>
							</span>
						))}
					</p>
				))}
		</section>
	);
}
