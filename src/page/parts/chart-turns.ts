/** A chart that wants to be drawn. */
interface Turn {
	/** Whether it is in view or nearly so. */
	readonly isNear: () => boolean;
	readonly draw: () => Promise<void>;
}

/** Charts out of view wait until nothing was asked for so long, ms. */
const quiet = 250;

const waiting = new Map<object, Turn>();
let isGoing = false;
let askedAt = 0;

/**
 * Draws charts one a task, those in view first, so that none of them holds up
 * typing or another. Of several askings of one chart only the last is done.
 *
 * @param chart stands for the chart
 */
export function takeTurn(chart: object, turn: Turn): void {
	waiting.delete(chart);
	waiting.set(chart, turn);
	askedAt = performance.now();
	if (!isGoing) void goOn();
}

/** Takes a chart that is gone out of the row. */
export function leaveTurns(chart: object): void {
	waiting.delete(chart);
}

async function goOn(): Promise<void> {
	isGoing = true;
	while (waiting.size > 0) {
		await nextTask();
		const near = [...waiting].find(([, { isNear }]) => isNear());
		const rest = quiet - (performance.now() - askedAt);
		if (!near && rest > 0) {
			await later(Math.min(rest, 50));
			continue;
		}
		const next = near ?? waiting.entries().next().value;
		if (!next) break;
		waiting.delete(next[0]);
		await next[1].draw();
	}
	isGoing = false;
}

/** Goes on in a task of its own, so that typing can come between. */
export const nextTask = (): Promise<void> => later(0);

const later = (milliseconds: number): Promise<void> => new Promise((resolve) => setTimeout(resolve, milliseconds));

// on paper all of them are in view; the browser does not wait for what is not drawn at once, so this is best effort
if (typeof addEventListener === 'function') {
	addEventListener('beforeprint', () => {
		for (const [chart, { draw }] of waiting) {
			waiting.delete(chart);
			void draw();
		}
	});
}
