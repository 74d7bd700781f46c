/** Name, purpose, and the three back-EMFs of an electrical revolution with their six crossings. */
export function Masthead() {
	return (
		<header class="masthead">
			<h1>Anglespread</h1>
			<p>How far parts, conditions and noise move the commutation of a sensorless six-step drive</p>
			<svg class="emf" viewBox="0 0 360 40" width="324" height="36" aria-hidden="true">
				<path class="zero" d="M0 20h360" />
				<path d="M0 34H90L150 6H270L330 34H360M0 6H30L90 34H210L270 6H360" />
				<path class="open-phase" d="M0 20L30 6H150L210 34H330L360 20" />
				<path class="crossing" d="M0 17v6M60 17v6M120 17v6M180 17v6M240 17v6M300 17v6M360 17v6" />
			</svg>
		</header>
	);
}
