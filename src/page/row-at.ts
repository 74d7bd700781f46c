/** The key of the input row that an element lies in, or that the inspector around it is about; '' where there is none. */
export function rowAt(element: Element | null): string {
	const place = element?.closest('[data-row], [data-about]');
	return place?.getAttribute('data-row') ?? place?.getAttribute('data-about') ?? '';
}

/** The key of the input row that has the focus and is in sight; '' where none is. */
export function rowInHand(): string {
	const element = document.activeElement;
	const box = element?.getBoundingClientRect();
	const isInSight = box && box.width > 0 && box.bottom > 0 && box.top < innerHeight;
	return isInSight ? rowAt(element) : '';
}
