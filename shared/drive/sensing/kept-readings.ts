/** Standard deviations beyond which a tail (1.8·10⁻³³) is below all that is followed. */
export const faint = 12;

/**
 * The noise-free readings of one run's measured sectors, kept so that other majority filters and noise can be judged
 * on them without simulating again. Each reading is two margins (V): noise above `up` gives "above" where the
 * comparator was not, noise above `stay` keeps it there (both alike without hysteresis; ±∞ where a converter's codes
 * settle it).
 *
 * A sector is kept from the end of blanking to its timeout, or until the slowest filter has surely accepted. The
 * waveform is that of the run's own filter up to its acceptance, and of no acceptance at all from there.
 */
export class KeptReadings {
	/** Seconds. */
	times = new Float64Array(1024);
	ups = new Float64Array(1024);
	stays = new Float64Array(1024);
	/** Readings kept. */
	count = 0;
	readonly sectors: KeptSector[] = [];
	/** Volts, and readings in a row: what surely reads "crossed" with the loudest noise for so long has been accepted by every filter. */
	private readonly sure: number;
	private readonly longest: number;
	private row = 0;
	private rising = false;

	/**
	 * @param loudest greatest noise that is to be judged, V standard deviation
	 * @param longest longest majority window
	 */
	constructor(loudest: number, longest: number) {
		this.sure = faint * loudest;
		this.longest = longest;
	}

	clear(): void {
		this.count = 0;
		this.sectors.length = 0;
	}

	/** Whether the sector's further readings are of use. */
	get open(): boolean {
		return this.row < this.longest;
	}

	/**
	 * @param exact when a reading would have to be accepted for a crossing error of exactly 0, s
	 * @param placement how much later than 60° after the sector before the back-EMF crosses zero, as its winding is placed, s
	 */
	openSector(exact: number, placement: number, rising: boolean): void {
		this.rising = rising;
		this.row = 0;
		this.sectors.push({ exact, placement, rising, from: this.count });
	}

	add(time: number, up: number, stay: number): void {
		if (!this.open) return;
		if (this.count === this.times.length) this.grow();
		this.times[this.count] = time;
		this.ups[this.count] = up;
		this.stays[this.count] = stay;
		this.count++;
		this.row = (this.rising ? up < -this.sure : stay > this.sure) ? this.row + 1 : 0;
	}

	private grow(): void {
		for (const name of ['times', 'ups', 'stays'] as const) {
			const longer = new Float64Array(2 * this.count);
			longer.set(this[name]);
			this[name] = longer;
		}
	}
}

interface KeptSector {
	readonly exact: number;
	readonly placement: number;
	readonly rising: boolean;
	/** Place of its first reading; the next sector's first one ends it. */
	readonly from: number;
}
