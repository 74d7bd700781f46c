/**
 * Count, mean, sum of squared deviations and range of a stream of values, which
 * can be merged with those of another part of it.
 *
 * Sources: B. P. Welford, Technometrics 4 (1962) 419–420 (one value);
 * T. F. Chan, G. H. Golub and R. J. LeVeque, The American Statistician 37 (1983)
 * 242–247 (merging).
 */
export class Moments {
	count = 0;
	/** NaN without values. */
	mean = Number.NaN;
	/** Σ (x − mean)². */
	squares = 0;
	min = Infinity;
	max = -Infinity;

	add(value: number): void {
		this.count++;
		if (this.count === 1) this.mean = value;
		const before = value - this.mean;
		this.mean += before / this.count;
		this.squares += before * (value - this.mean);
		if (value < this.min) this.min = value;
		if (value > this.max) this.max = value;
	}

	/** Takes in the values that `other` has seen. */
	merge(other: Moments): void {
		if (other.count === 0) return;
		if (this.count === 0) {
			this.mean = other.mean;
		} else {
			const total = this.count + other.count;
			const apart = other.mean - this.mean;
			this.mean += (apart * other.count) / total;
			this.squares += apart * apart * ((this.count * other.count) / total);
		}
		this.squares += other.squares;
		this.count += other.count;
		this.min = Math.min(this.min, other.min);
		this.max = Math.max(this.max, other.max);
	}

	/** With n − 1 below the line; NaN with fewer than two values. */
	get variance(): number {
		return this.count < 2 ? Number.NaN : this.squares / (this.count - 1);
	}

	get sd(): number {
		return Math.sqrt(this.variance);
	}
}
