/**
 * Files dropped anywhere on the page, one at a time; the browser would otherwise leave the page for them.
 *
 * @param take given the file and the element that it was dropped on
 */
export function onFileDrop(take: (file: File, on: Element | null) => void): void {
	addEventListener('dragover', (event) => event.preventDefault());
	addEventListener('drop', (event) => {
		event.preventDefault();
		const [file] = event.dataTransfer?.files ?? [];
		if (file) take(file, event.target instanceof Element ? event.target : null);
	});
}
