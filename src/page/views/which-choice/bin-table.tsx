import type { ErrorBins } from '../../../../shared/charts/error-bins.ts';
import { choiceNames } from '../../../../shared/drive/drive.ts';
import { binRows } from '../../model/bin-rows.ts';
import type { Stretch } from '../../model/drives-here.ts';
import { ChoiceHeads } from '../../parts/choice-cells.tsx';

/** The bins behind both error pictures; a bin's name asks for the drives in it. */
export const BinTable = ({ bins, onPick }: { bins: ErrorBins; onPick: (stretch: Stretch) => void }) => (
	<table>
		<thead>
			<tr>
				<td />
				<ChoiceHeads span={2} />
			</tr>
			<tr>
				<th scope="col">Error</th>
				{choiceNames.map((choice) => [
					<th key={choice} scope="col">
						count
					</th>,
					<th key={`${choice} cumulative`} scope="col">
						up to here
					</th>,
				])}
			</tr>
		</thead>
		<tbody>
			{binRows(bins).map(({ range, from, to, cells }) => (
				<tr key={range}>
					<th scope="row">
						<button
							type="button"
							class="bin"
							aria-label={`Drives with errors of ${range}`}
							onClick={() => onPick({ from, to })}
						>
							{range}
						</button>
					</th>
					{cells.map(({ choice, counted, cumulative }) => [
						<td key={choice}>{counted}</td>,
						<td key={`${choice} cumulative`}>{cumulative}</td>,
					])}
				</tr>
			))}
		</tbody>
	</table>
);
