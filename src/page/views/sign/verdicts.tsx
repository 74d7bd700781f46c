import type { SignModel } from '../../model/sign/sign.ts';
import { ChoiceHeadRow } from '../../parts/choice-cells.tsx';
import { InFull } from '../../parts/in-full.tsx';
import { WideTable } from '../../parts/wide-table.tsx';

/** Both verdicts in figures, and which choice passes more. */
export function Verdicts({ answer: { verdicts, inFull } }: { answer: NonNullable<SignModel['answer']['value']> }) {
	const [first] = verdicts;
	return (
		<section class="verdicts" aria-labelledby="verdicts-title">
			<h3 id="verdicts-title">The requirement, choice by choice</h3>
			<WideTable what="both verdicts in figures">
				<ChoiceHeadRow />
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
			</WideTable>
			<InFull words={inFull} />
		</section>
	);
}
