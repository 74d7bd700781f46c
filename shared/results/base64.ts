/** Bytes handed to the host at once: as arguments of a call they must fit its stack. */
const piece = 0x6000; // a multiple of 3, so that pieces join without padding

/** RFC 4648, section 4. */
export function toBase64(bytes: Uint8Array): string {
	const pieces: string[] = [];
	for (let at = 0; at < bytes.length; at += piece) {
		pieces.push(btoa(String.fromCharCode(...bytes.subarray(at, at + piece))));
	}
	return pieces.join('');
}

/** The bytes, or null where the text is not base64 of so many. */
export function fromBase64(text: string, length: number): Uint8Array<ArrayBuffer> | null {
	if (text.length !== 4 * Math.ceil(length / 3)) return null;
	let signs: string;
	try {
		signs = atob(text);
	} catch {
		return null;
	}
	if (signs.length !== length) return null;
	const bytes = new Uint8Array(length);
	for (let at = 0; at < length; at += 1) bytes[at] = signs.charCodeAt(at);
	return bytes;
}
