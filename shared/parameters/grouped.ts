/** Narrow and unbreakable. */
const thinSpace = '\u202f';

/** Whole part of five digits and more in groups of three, as is common practice; four digits need none: "2000", "12 840". */
export const grouped = (number: string): string =>
	number.replace(/^\D*\d{5,}/, (whole) => whole.replace(/\B(?=(\d{3})+$)/g, thinSpace));

/** The same number without its groups, whatever space sets them apart. */
export const ungrouped = (number: string): string => number.replace(/(?<=\d)\s(?=\d{3}(?!\d))/g, '');
