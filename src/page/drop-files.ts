/**
 * Files dropped anywhere on the page; the browser would otherwise leave the page for them.
 *
 * @param take given the files and the element that they were dropped on
 */
export function onFileDrop(take: (files: readonly File[], on: Element | null) => void): void {
	addEventListener('dragover', (event) => event.preventDefault());
	addEventListener('drop', (event) => {
		event.preventDefault();
		const files = [...(event.dataTransfer?.files ?? [])];
		if (files.length > 0) take(files, event.target instanceof Element ? event.target : null);
	});
}
