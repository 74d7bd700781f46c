/**
 * A scenario file's text with its last operating point alone and one start: the
 * least that a study can be asked.
 *
 * @param trial further settings of its trial
 */
export function leanScenario(text: string, trial: Readonly<Record<string, number>> = {}): string {
	const file = JSON.parse(text) as { points: { name: string }[]; trial?: object };
	const point = file.points.at(-1);
	if (point === undefined) throw new Error('a scenario without operating points');
	return JSON.stringify({
		...file,
		points: [point],
		referencePoint: point.name,
		trial: { ...file.trial, starts: 1, ...trial },
	});
}
