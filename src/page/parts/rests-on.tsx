import type { ComponentChildren } from 'preact';

interface RestsOnProps {
	readonly rows: readonly (readonly [string, string])[];
	readonly children?: ComponentChildren;
}

/** What makes figures reproducible: seed, digests, version, drives, methods. */
export function RestsOn({ rows, children }: RestsOnProps) {
	return (
		<section class="provenance" aria-labelledby="provenance-title">
			<h3 id="provenance-title">What these figures rest on</h3>
			<Terms rows={rows} />
			{children}
		</section>
	);
}

/** Terms and what is to be said of each. */
export function Terms({ rows }: Pick<RestsOnProps, 'rows'>) {
	return (
		<dl>
			{rows.map(([term, words]) => (
				<div key={term}>
					<dt>{term}</dt>
					<dd>{words}</dd>
				</div>
			))}
		</dl>
	);
}

/** Every drive that could not be simulated, with the reason. */
export function FailedDrives({
	failures,
}: {
	failures: readonly { readonly unit: number; readonly message: string }[];
}) {
	if (failures.length === 0) return null;
	return (
		<details open>
			<summary>Drives that could not be simulated</summary>
			<ul>
				{failures.map(({ unit, message }) => (
					<li key={unit}>
						drive {unit}: {message}
					</li>
				))}
			</ul>
		</details>
	);
}
