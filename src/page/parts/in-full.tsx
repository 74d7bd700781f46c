/** All that an answer says, under its figures: the headline above them says the most of it. */
export const InFull = ({ words }: { words: readonly string[] }) => (
	<div class="in-full">
		{words.map((one) => (
			<p key={one} class="rest">
				{one}
			</p>
		))}
	</div>
);
