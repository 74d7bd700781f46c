interface FigureWordsProps {
	readonly figure: {
		readonly main: string;
		/** Its interval, or what else qualifies it. */
		readonly detail: string;
		/** What the pinned baseline had. */
		readonly was: string;
	};
}

/** A figure in a table's cell: what qualifies it, and what it was, beneath. */
export const FigureWords = ({ figure: { main, detail, was } }: FigureWordsProps) => (
	<>
		{main}
		{detail && <small>{detail}</small>}
		<Was words={was} />
	</>
);

/** What the pinned baseline had in a figure's place; nothing where there are no words. */
export const Was = ({ words }: { words: string }) => (words ? <small class="was">{words}</small> : null);
