import { partRows } from '../../../../shared/one-drive/part-rows.ts';
import type { OneDrive } from '../../model/one-drive/one-drive.ts';
import { Behind } from '../../parts/behind.tsx';
import { Scroll } from '../../parts/scroll.tsx';

/** So many unusual parts are shown at once, the rest behind them. */
const first = 10;

/** Its parts with their deviations, the most unusual first. */
export function Parts({ drive }: { drive: OneDrive }) {
	const all = drive.parts.value;
	const rows = partRows(all);
	const acting = partRows(all.filter(({ acts }) => acts));
	return (
		<section class="parts" aria-labelledby="parts-title">
			<h3 id="parts-title">Its parts, the most unusual first</h3>
			{rows.length === 0 && <p class="aside">No part of this scenario varies.</p>}
			{acting.length > 0 && (
				<Scroll what="its most unusual parts">
					<PartTable rows={acting.slice(0, first)} />
				</Scroll>
			)}
			{rows.length > Math.min(first, acting.length) && (
				<Behind
					what={`all ${rows.length} parts${rows.length > acting.length ? ', those without effect here included' : ''}`}
				>
					<PartTable rows={rows} />
				</Behind>
			)}
		</section>
	);
}

function PartTable({ rows }: { rows: ReturnType<typeof partRows> }) {
	return (
		<table>
			<thead>
				<tr>
					<th scope="col">Part</th>
					<th scope="col">Value</th>
					<th scope="col">Deviation</th>
					<th scope="col">As far out</th>
				</tr>
			</thead>
			<tbody>
				{rows.map(({ key, name, value, deviation, asFarOut }) => (
					<tr key={key}>
						<th scope="row">{name}</th>
						<td>{value}</td>
						<td>{deviation}</td>
						<td>{asFarOut}</td>
					</tr>
				))}
			</tbody>
		</table>
	);
}
