/** A source as one whole script of its own, minified, as text (src/tooling/carried-plugin.mjs). */
declare module '*?carried' {
	const code: string;
	export default code;
}
