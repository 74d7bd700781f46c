/** seedrandom's types cover its main file only; that one pulls in Node's crypto. */
declare module 'seedrandom/lib/alea.js' {
	import type seedrandom from 'seedrandom';

	const alea: typeof seedrandom.alea;
	export default alea;
}
