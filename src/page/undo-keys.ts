/**
 * Ctrl+Z, Ctrl+Shift+Z and Ctrl+Y (with Cmd on a Mac) take back and redo edits
 * of the scenario, also from within its fields: what a browser would undo there
 * is one field's typing only. Other fields keep their own.
 */
export function onUndoKeys({ undo, redo }: { readonly undo: () => void; readonly redo: () => void }): void {
	addEventListener('keydown', (event) => {
		if (!(event.ctrlKey || event.metaKey) || event.altKey) return;
		const key = event.key.toLowerCase();
		if (key !== 'z' && key !== 'y') return;
		const on = event.target;
		const isOtherText = on instanceof HTMLElement && on.matches('input, textarea') && !on.hasAttribute('data-field');
		if (isOtherText) return;
		event.preventDefault();
		if (key === 'y' || event.shiftKey) redo();
		else undo();
	});
}
