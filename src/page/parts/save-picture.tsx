import { useState } from 'preact/hooks';
import type { Table } from '../../../shared/words/csv.ts';
import { errorMessage } from '../../../shared/words/error-message.ts';
import type { PictureWords } from './standalone-svg.ts';

interface SavePictureProps {
	/** What the files are called, without their ending. */
	readonly name: string;
	/** The picture as it is now; null where it is not drawn. */
	readonly svg: () => SVGSVGElement | null;
	readonly table?: () => Table;
	/** Set around a picture of both choices. */
	readonly words?: () => PictureWords;
}

/** Saves a picture as SVG or PNG and its figures as CSV. */
export function SavePicture({ name, svg, table, words }: SavePictureProps) {
	const [problem, setProblem] = useState('');
	const save = async (kind: 'SVG' | 'PNG' | 'CSV'): Promise<void> => {
		try {
			const { saveCsv, savePng, saveSvg } = await import('./save-files.ts');
			const picture = svg();
			if (kind === 'CSV') {
				if (table) saveCsv(name, table());
			} else if (picture) await (kind === 'SVG' ? saveSvg : savePng)(name, picture, words?.());
			else throw new Error('it is not drawn yet');
			setProblem('');
		} catch (error) {
			setProblem(`${name} could not be saved: ${errorMessage(error)}`);
		}
	};
	const kinds = table ? (['SVG', 'PNG', 'CSV'] as const) : (['SVG', 'PNG'] as const);
	return (
		<p class="save-picture controls">
			Save as
			{kinds.map((kind) => (
				<button key={kind} type="button" aria-label={`Save ${name} as ${kind}`} onClick={() => void save(kind)}>
					{kind}
				</button>
			))}
			{problem && (
				<span class="problem" role="alert">
					{problem}
				</span>
			)}
		</p>
	);
}
