/** What must be known before figures are believed. */
export const Reservations = ({ words }: { readonly words: readonly string[] }) => (
	<>
		{words.map((one) => (
			<p key={one} class="reservation">
				{one}
			</p>
		))}
	</>
);
