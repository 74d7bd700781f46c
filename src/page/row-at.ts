/** The key of the input row that an element lies in, or that the inspector around it is about; '' where there is none. */
export function rowAt(element: Element | null): string {
	const place = element?.closest('[data-row], [data-about]');
	return place?.getAttribute('data-row') ?? place?.getAttribute('data-about') ?? '';
}

/** The key of the input row that has the focus and is in sight; '' where none is. */
export function rowInHand(): string {
	const element = document.activeElement;
	const key = rowAt(element);
	if (!element || key === '') return '';
	const { left, top, width, height } = element.getBoundingClientRect();
	// what is really there: the form scrolls by itself, so that a row may lie within the window and yet not be seen
	return rowAt(document.elementFromPoint(left + width / 2, top + height / 2)) === key ? key : '';
}
