import type { OneDrive } from '../../model/one-drive/one-drive.ts';
import { ProblemList } from '../problem-list.tsx';

/** A measured board's values in place of the drawn ones, typed or pasted in the form of the `board` command. */
export function BoardEntry({ drive }: { drive: OneDrive }) {
	const { board, boardTyped, boardProblems } = drive;
	return (
		<details class="board-entry">
			<summary>Measured values of a board in place of the drawn ones</summary>
			<p class="aside">
				The form is that of the <code>board</code> command: parameters, and how each part deviates, relative or in the
				part's own unit; lists hold phases a, b, c. Start from this drive's own values, or paste yours. The board meets
				the same noise as the drive it stands for.
			</p>
			<div class="field">
				<label for="board-text">Board</label>
				<textarea
					id="board-text"
					rows={12}
					spellcheck={false}
					aria-invalid={boardProblems.value.length > 0}
					value={boardTyped.value}
					onInput={(event) => drive.typeBoard(event.currentTarget.value)}
				/>
			</div>
			<p class="buttons">
				<button type="button" onClick={drive.fillBoard}>
					Fill in this drive's values
				</button>
				<button type="button" onClick={drive.takeBoard} disabled={boardTyped.value.trim() === ''}>
					Simulate this board
				</button>
				<button type="button" onClick={drive.dropBoard} disabled={!board.value}>
					Back to the drawn drive
				</button>
			</p>
			<ProblemList file="The board" problems={boardProblems.value} />
		</details>
	);
}
