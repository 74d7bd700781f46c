import type { SignModel } from '../../model/sign/sign.ts';
import { Behind } from '../../parts/behind.tsx';
import { ChoiceCells, ChoiceHeads } from '../../parts/choice-cells.tsx';

/** Drives that pass each operating point, and the first reason why others do not. */
export function PointsTable({ points }: Pick<NonNullable<SignModel['answer']['value']>, 'points'>) {
	return (
		<Behind what="drives that pass each point, and why others do not">
			<table>
				<thead>
					<tr>
						<th scope="col">Operating point</th>
						<ChoiceHeads />
					</tr>
				</thead>
				{points.map(({ name, pass, reasons }) => (
					<tbody key={name}>
						<tr>
							<th scope="row">{name}: pass</th>
							<ChoiceCells of={(choice) => pass[choice]} />
						</tr>
						{reasons.map(({ reason, counts }) => (
							<tr key={reason} class="reason">
								<th scope="row">{reason}</th>
								<ChoiceCells of={(choice) => counts[choice]} />
							</tr>
						))}
					</tbody>
				))}
			</table>
		</Behind>
	);
}
