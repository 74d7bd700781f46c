/** Files dropped anywhere on the page, one at a time; the browser would otherwise leave the page for them. */
export function onFileDrop(take: (file: File) => void): void {
	addEventListener('dragover', (event) => event.preventDefault());
	addEventListener('drop', (event) => {
		event.preventDefault();
		const [file] = event.dataTransfer?.files ?? [];
		if (file) take(file);
	});
}
