import '../../style/long-question.css';
import '../../style/limits.css';
import type { PageModel } from '../../model/page-model.ts';
import { routeLink } from '../../model/route.ts';
import { ContestPart } from './contest-part.tsx';
import { EnvelopePart } from './envelope-part.tsx';
import { RangePart } from './range-part.tsx';

/** The ways to look at it, each with an address of its own. */
const ways = [
	{ of: 'range', title: 'Along one parameter', Part: RangePart },
	{ of: 'map', title: 'Speed and torque', Part: ContestPart },
	{ of: 'corners', title: 'All stated limits at once', Part: EnvelopePart },
] as const;

/** Where it stops working: along a parameter, over speed and torque, at the corners of what was stated. */
export function LimitsView({ model }: { model: PageModel }) {
	const { of, ...rest } = model.route.details.value;
	const way = ways.find((one) => one.of === of) ?? ways[0];
	return (
		<>
			<h2 id="question">Where does it stop working?</h2>
			<nav class="ways controls" aria-label="Ways to look at it">
				<ul>
					{ways.map((one) => (
						<li key={one.of}>
							<a href={routeLink('limits', { ...rest, of: one.of })} aria-current={one === way ? 'page' : undefined}>
								{one.title}
							</a>
						</li>
					))}
				</ul>
			</nav>
			<way.Part key={way.of} model={model} />
		</>
	);
}
