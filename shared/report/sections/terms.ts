import { degrees } from '../../words/figures.ts';
import { levelWords } from '../../words/level.ts';
import { causeWords } from '../../words/names.ts';
import { type Content, html } from '../html.ts';
import { type Report, studyOf } from '../report.ts';
import { type Section, section } from '../section.ts';

/** What the words of this report mean, for a reader who has nothing but it. */
export function terms({ scenario, calculations }: Report): Section {
	const value = (id: string): number => Number(scenario.values[id]);
	const { level } = studyOf({ calculations }).result.provenance;
	const margin = degrees(value('trial.falseMargin'));
	const meanings: readonly (readonly [term: string, meaning: string])[] = [
		[
			'Drive',
			'One drive as built: resistors, capacitors, windings and comparators are drawn once from their tolerances. Drives, not sectors, count as independent.',
		],
		['Start', 'One run of a drive, from another phase of the PWM carrier and of the bus ripple.'],
		[
			'Sector, crossing',
			'60 electrical degrees. Two phases conduct; in the middle the EMF of the open one crosses zero, and commutation is due 30° later.',
		],
		[
			'Commutation-angle error',
			'How far a commutation lies from where it is due, in electrical degrees; positive is late.',
		],
		[
			'Median drive, 1 drive in 20',
			'For each drive the angle that 95 % of its own commutations keep within; the middle one of these, and the one that 1 drive in 20 exceeds. Drive by drive is what a customer meets; “all commutations” is about those of all drives together.',
		],
		[
			'Early false, late, missed',
			`A crossing that the firmware takes more than ${margin} before the true one, more than ${margin} after it, or not at all before the timeout.`,
		],
		[
			'Causes of an early one',
			`Freewheel: ${causeWords.freewheel}; noise: ${causeWords.noise}; threshold: ${causeWords.threshold}.`,
		],
		[
			'Lost lock',
			`An error above ${degrees(value('trial.lostLimit'))}. The run ends there and ranks worse than any error.`,
		],
		[
			'Passes',
			'At every operating point the drive keeps lock, reaches the torque, and keeps the required angle and hourly rate.',
		],
		[
			'Holds, fails, undecided',
			'Whether the limits on the share of passing drives lie wholly at or above what is required, wholly below it, or on both sides. Undecided is not shown to hold.',
		],
		[
			`${levelWords(level)} interval`,
			'What this many drives leave open. It shrinks with more drives and says nothing of what the model leaves out.',
		],
		[
			'Bound, where none was seen',
			'At most so many drives would show any such event in as many sectors as were run. It is no rate.',
		],
		[
			'Computed',
			'From the exact chance of an early, late or missed crossing in every sector, worked out from its noise-free inputs: rates far too small to be counted.',
		],
		[
			'Effective number of drives',
			'How many equally bad drives would carry a computed rate with the same weight. Below 100 no interval is given, and the rate is to be read as an order of magnitude: the next drive drawn may change it.',
		],
		['Gain over counting', 'How many times as many drives would have to be counted for the same standard error.'],
	];
	const content: Content = html`<dl class="methods">${meanings.map(([term, meaning]) => html`<div><dt>${term}</dt><dd>${meaning}</dd></div>`)}</dl>`;
	return section('terms', 'What the words mean', content);
}
