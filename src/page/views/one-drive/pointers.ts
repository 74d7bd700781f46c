import type { OneDrive } from '../../model/one-drive/one-drive.ts';

/** Movement from which on a press is a drag, px. */
const slack = 4;

/** Mouse, touch and wheel on the waveforms: drag moves, two fingers and Ctrl + wheel zoom, pointing puts the cursor. */
export function followPointers(element: HTMLElement, scope: OneDrive['scope'], gutter: number): () => void {
	const down = new Map<number, number>();
	let isDragging = false;

	const place = (event: MouseEvent): number => event.clientX - element.getBoundingClientRect().left - gutter;
	const timeAt = (pixel: number): number => {
		const { from, to } = scope.view.value;
		return from + (pixel / scope.width.value) * (to - from);
	};
	const onDown = (event: PointerEvent): void => {
		if (event.button !== 0) return;
		down.set(event.pointerId, place(event));
		isDragging = down.size > 1;
	};
	const onMove = (event: PointerEvent): void => {
		const now = place(event);
		const before = down.get(event.pointerId);
		if (before === undefined) {
			if (event.pointerType === 'mouse') scope.point(timeAt(now));
			return;
		}
		if (!isDragging && Math.abs(now - before) < slack) return;
		if (!isDragging) element.setPointerCapture(event.pointerId);
		isDragging = true;
		const other = [...down].find(([id]) => id !== event.pointerId)?.[1];
		if (other === undefined) scope.move((before - now) / scope.width.value);
		else if (Math.abs(now - other) > 1) {
			scope.zoom(
				Math.min(4, Math.max(0.25, Math.abs(before - other) / Math.abs(now - other))),
				timeAt((now + other) / 2),
			);
		}
		down.set(event.pointerId, now);
	};
	const onUp = (event: PointerEvent): void => {
		const wasPressed = down.delete(event.pointerId);
		if (wasPressed && !isDragging && event.type === 'pointerup') scope.point(timeAt(place(event)));
		if (down.size === 0) isDragging = false;
	};
	const onDouble = (event: MouseEvent): void => scope.zoom(0.25, timeAt(place(event)));
	const onWheel = (event: WheelEvent): void => {
		if (event.ctrlKey || event.metaKey) {
			event.preventDefault();
			scope.zoom(1.0015 ** Math.max(-300, Math.min(300, event.deltaY)), timeAt(place(event)));
		} else if (event.shiftKey || Math.abs(event.deltaX) > Math.abs(event.deltaY)) {
			event.preventDefault();
			scope.move((event.deltaX || event.deltaY) / scope.width.value);
		}
	};

	element.addEventListener('pointerdown', onDown);
	element.addEventListener('pointermove', onMove);
	element.addEventListener('pointerup', onUp);
	element.addEventListener('pointercancel', onUp);
	element.addEventListener('dblclick', onDouble);
	element.addEventListener('wheel', onWheel, { passive: false });
	return () => {
		element.removeEventListener('pointerdown', onDown);
		element.removeEventListener('pointermove', onMove);
		element.removeEventListener('pointerup', onUp);
		element.removeEventListener('pointercancel', onUp);
		element.removeEventListener('dblclick', onDouble);
		element.removeEventListener('wheel', onWheel);
	};
}
