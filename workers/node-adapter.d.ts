// comlink ships the adapter's types under a name that does not belong to its .mjs file
declare module 'comlink/dist/esm/node-adapter.mjs' {
	export { default } from 'comlink/dist/esm/node-adapter.d.ts';
}
