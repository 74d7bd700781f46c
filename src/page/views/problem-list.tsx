import type { Problem } from '../../../shared/scenario/scenario.ts';
import { keepUnits } from '../../../shared/words/keep-units.ts';

/** Everything wrong with a scenario at once: where, what was found, what would be right. */
export function ProblemList({ file, problems }: { file: string; problems: readonly Problem[] }) {
	if (problems.length === 0) return null;
	return (
		<section class="problems" role="alert" aria-labelledby="problems-title">
			<h2 id="problems-title">
				{file} has {problems.length === 1 ? 'a problem' : `${problems.length} problems`} and was not run
			</h2>
			<ul>
				{problems.map(({ path, value, message }) => (
					<li key={`${path} ${message}`}>
						<code>{path || '(whole file)'}</code>
						{value && (
							<>
								{' '}
								is <code>{value}</code>
							</>
						)}
						<span class="message">{keepUnits(message)}</span>
					</li>
				))}
			</ul>
		</section>
	);
}
