import { choiceNames } from '../../../../shared/drive/drive.ts';
import { choiceWords } from '../../../../shared/words/names.ts';
import type { SignModel } from '../../model/sign/sign.ts';
import { Behind } from '../../parts/behind.tsx';

/** Drives that pass each operating point, and the first reason why others do not. */
export function PointsTable({ points }: Pick<NonNullable<SignModel['answer']['value']>, 'points'>) {
	return (
		<Behind what="drives that pass each point, and why others do not">
			<table>
				<thead>
					<tr>
						<th scope="col">Operating point</th>
						{choiceNames.map((choice) => (
							<th key={choice} scope="col">
								{choiceWords[choice]}
							</th>
						))}
					</tr>
				</thead>
				{points.map(({ name, pass, reasons }) => (
					<tbody key={name}>
						<tr>
							<th scope="row">{name}: pass</th>
							{choiceNames.map((choice) => (
								<td key={choice}>{pass[choice]}</td>
							))}
						</tr>
						{reasons.map(({ reason, counts }) => (
							<tr key={reason} class="reason">
								<th scope="row">{reason}</th>
								{choiceNames.map((choice) => (
									<td key={choice}>{counts[choice]}</td>
								))}
							</tr>
						))}
					</tbody>
				))}
			</table>
		</Behind>
	);
}
