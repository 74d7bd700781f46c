import type { SignModel } from '../../model/sign/sign.ts';
import { ChoiceHeads } from '../../parts/choice-cells.tsx';
import { InFull } from '../../parts/in-full.tsx';
import { Scroll } from '../../parts/scroll.tsx';

/** Both verdicts in figures, and which choice passes more. */
export function Verdicts({ answer: { verdicts, inFull } }: { answer: NonNullable<SignModel['answer']['value']> }) {
	const [first] = verdicts;
	return (
		<section class="verdicts" aria-labelledby="verdicts-title">
			<h3 id="verdicts-title">The requirement, choice by choice</h3>
			<Scroll what="both verdicts in figures">
				<table>
					<thead>
						<tr>
							<td />
							<ChoiceHeads areMarked />
						</tr>
					</thead>
					<tbody>
						<tr class="decision">
							<th scope="row">Verdict</th>
							{verdicts.map(({ choice, decision }) => (
								<td key={choice} class={`verdict ${decision}`}>
									{decision}
								</td>
							))}
						</tr>
						{first?.rows.map(({ label }, place) => (
							<tr key={label}>
								<th scope="row">{label}</th>
								{verdicts.map(({ choice, rows }) => (
									<td key={choice}>
										{rows[place]?.words}
										{rows[place]?.was && <small class="was">{rows[place]?.was}</small>}
									</td>
								))}
							</tr>
						))}
					</tbody>
				</table>
			</Scroll>
			<InFull words={inFull} />
		</section>
	);
}
