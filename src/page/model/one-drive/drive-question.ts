import { choiceNames, type PerChoice } from '../../../../shared/drive/drive.ts';
import { failingChoices, type PointVerdict } from '../../../../shared/one-drive/point-verdict.ts';
import { choiceWords } from '../../../../shared/words/names.ts';

interface Known {
	readonly point: string;
	readonly isBoard: boolean;
	/** Over all starts at the point; null while it is not known, and of a board, which runs once. */
	readonly verdicts: PerChoice<PointVerdict> | null;
	/** Whether anything at the start on show is beyond a limit, single commutations included; null while not known. */
	readonly isNoted: boolean | null;
}

/** What there is to ask of the drive on show: why it failed only where it did. */
export function driveQuestion({ point, isBoard, verdicts, isNoted }: Known): string {
	const subject = isBoard ? 'board' : 'drive';
	if (isBoard && isNoted) return 'What went wrong with this board?';
	if (isBoard || !verdicts) return `How did this ${subject} do?`;
	const failing = failingChoices(verdicts);
	if (failing.length === choiceNames.length) return 'Why did this drive fail?';
	if (failing.length > 0)
		return `Why did this drive fail with ${failing.map((choice) => choiceWords[choice]).join(' and ')}?`;
	if (isNoted === null) return `How did this drive do? It passes at ${point}`;
	return isNoted
		? `This drive passes at ${point}: what went wrong all the same?`
		: `This drive passes at ${point}, and nothing went wrong`;
}
