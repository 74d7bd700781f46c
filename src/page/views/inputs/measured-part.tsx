import { valueAt } from '../../model/inputs/document.ts';
import { type CumulativeStep, measuredSummary } from '../../model/inputs/measured-part.ts';
import type { InputRow } from '../../model/inputs/rows.ts';
import type { PageModel } from '../../model/page-model.ts';

const width = 300;
const height = 96;

/** Measured values of a part, from a file: their distribution against the assumed one that they replace. */
export function MeasuredPart({ row, model }: { row: InputRow; model: PageModel }) {
	const { inputs } = model;
	const entry = inputs.document.value ? valueAt(inputs.document.value, row.path) : undefined;
	const summary = measuredSummary(row, entry, inputs.tolerancesBefore.value[row.record.id]);
	const refused = inputs.measuredProblems.value;
	return (
		<div class="measured">
			<p class="controls">
				<label class="file">
					<input
						type="file"
						accept=".csv,.tsv,.txt,text/csv,text/plain"
						data-measured={row.key}
						onChange={(event) => {
							const [file] = event.currentTarget.files ?? [];
							event.currentTarget.value = '';
							if (file) void inputs.measure(row, file);
						}}
					/>
					<span>Use measured values</span>
				</label>
				<span class="hint"> from a CSV file, or drop one on the row</span>
			</p>
			{refused?.key === row.key && (
				<div class="problem" role="alert">
					<p>{refused.file} was not taken:</p>
					<ul>
						{refused.problems.map((problem) => (
							<li key={problem}>{problem}</li>
						))}
					</ul>
				</div>
			)}
			{summary && (
				<>
					<dl>
						{summary.facts.map(([term, words]) => (
							<div key={term}>
								<dt>{term}</dt>
								<dd>{words}</dd>
							</div>
						))}
					</dl>
					{summary.warnings.map((warning) => (
						<p key={warning} class="reservation">
							{warning}
						</p>
					))}
					<svg
						class="cumulative"
						viewBox={`-2 -6 ${width + 4} ${height + 26}`}
						role="img"
						aria-label={summary.describes}
					>
						<path class="axis" d={`M0 ${height}H${width}M${width / 2} 0V${height}`} />
						{summary.assumed.length > 0 && <path class="assumed" d={staircase(summary.assumed, summary.range)} />}
						<path class="steps" d={staircase(summary.measured, summary.range)} />
						<text x="0" y={height + 15}>
							{summary.axis.low}
						</text>
						<text x={width / 2} y={height + 15} text-anchor="middle">
							{summary.axis.middle}
						</text>
						<text x={width} y={height + 15} text-anchor="end">
							{summary.axis.high}
						</text>
					</svg>
					<p class="hint">
						Share of parts up to a deviation: measured (whole line){summary.assumed.length > 0 && ', assumed (dashed)'}.
						Kept as deviations: they move along with the nominal value.
					</p>
				</>
			)}
		</div>
	);
}

function staircase(steps: readonly CumulativeStep[], [low, high]: readonly [number, number]): string {
	const x = (deviation: number): string => ((width * (deviation - low)) / (high - low)).toFixed(1);
	const y = (share: number): string => (height * (1 - share)).toFixed(1);
	return `M0 ${height}${steps.map(({ deviation, share }) => `H${x(deviation)}V${y(share)}`).join('')}H${width}`;
}
