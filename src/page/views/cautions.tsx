/** What no figure on the page can stand in for. */
export function Cautions() {
	return (
		<p class="caution">
			<strong>Simulated estimates.</strong> Bus voltages and rotating parts are dangerous. Local codes, measurement on
			real hardware and qualified practice decide.
		</p>
	);
}
