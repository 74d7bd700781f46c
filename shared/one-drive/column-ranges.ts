/**
 * Smallest and largest value of one trace in each of a picture's columns, so that nothing that lies in a column is
 * lost however much time it stands for. Laid out low, high, low, high …; NaN where a column got no value.
 */
export class ColumnRanges {
	readonly ranges: Float32Array<ArrayBuffer>;
	private readonly from: number;
	private readonly perSecond: number;
	private readonly columns: number;

	/** @param from time at which the first column begins and @param to at which the last one ends, s */
	constructor(from: number, to: number, columns: number) {
		this.from = from;
		this.perSecond = columns / (to - from);
		this.columns = columns;
		this.ranges = new Float32Array(2 * columns).fill(Number.NaN);
	}

	add(time: number, value: number): void {
		const column = Math.floor((time - this.from) * this.perSecond);
		// what lies on the last column's end belongs to it
		const at = 2 * (column === this.columns && time - this.from <= this.columns / this.perSecond ? column - 1 : column);
		if (column < 0 || at >= this.ranges.length) return;
		if (!((this.ranges[at] as number) <= value)) this.ranges[at] = value;
		if (!((this.ranges[at + 1] as number) >= value)) this.ranges[at + 1] = value;
	}
}
