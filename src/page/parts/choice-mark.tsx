import { type ChoiceName, choiceNames } from '../../../shared/drive/drive.ts';
import { choiceWords } from '../../../shared/words/names.ts';

/** The line, fill and mark a sensing choice is drawn with everywhere on the page. */
export function ChoiceMark({ choice }: { choice: ChoiceName }) {
	return (
		<svg class={`choice-mark ${choice}`} viewBox="0 0 34 14" width="34" height="14" aria-hidden="true">
			<rect class="swatch" x="1" y="7" width="32" height="7" />
			<path class="line" d="M1 7h32" />
			{choice === 'halfBus' ? (
				<circle class="point" cx="17" cy="7" r="4" />
			) : (
				<path class="point" d="M17 2l5 5-5 5-5-5z" />
			)}
		</svg>
	);
}

/** Which mark is which choice. @param hasGhost whether a baseline is drawn in grey */
export function ChoiceKey({ hasGhost = false }: { hasGhost?: boolean }) {
	return (
		<p class="key">
			{choiceNames.map((choice) => (
				<span key={choice}>
					<ChoiceMark choice={choice} />
					{choiceWords[choice]}
				</span>
			))}
			{hasGhost && <span class="ghost">grey: the baseline</span>}
		</p>
	);
}

/** The hatch that fills the virtual neutral's areas, once a page. */
export function Hatches() {
	return (
		<svg class="hatches" width="0" height="0" aria-hidden="true">
			<defs>
				<pattern
					id="virtual-neutral-hatch"
					width="6"
					height="6"
					patternUnits="userSpaceOnUse"
					patternTransform="rotate(45)"
				>
					<path d="M0 0v6" class="hatch-line" />
				</pattern>
			</defs>
		</svg>
	);
}
