/**
 * The few globals that every host has and ES2023 does not name. Nothing else of
 * a browser or of Node is visible in this folder.
 */

declare class TextEncoder {
	encode(text: string): Uint8Array<ArrayBuffer>;
}

declare class TextDecoder {
	decode(bytes: Uint8Array): string;
}

/** Base64 of a text of bytes, and back; throws where it is none. */
declare function btoa(bytes: string): string;
declare function atob(base64: string): string;

declare const crypto: {
	readonly subtle: { digest(algorithm: 'SHA-256', data: ArrayBuffer | Uint8Array<ArrayBuffer>): Promise<ArrayBuffer> };
};

interface AbortSignal {
	readonly aborted: boolean;
	readonly reason: unknown;
	throwIfAborted(): void;
}
