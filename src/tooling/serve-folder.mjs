import { createReadStream } from 'node:fs';
import { realpath, stat } from 'node:fs/promises';
import { createServer } from 'node:http';
import { extname, join, sep } from 'node:path';

/** @type {Readonly<Record<string, string>>} */
const mediaTypes = {
	'.html': 'text/html; charset=utf-8',
	'.js': 'text/javascript; charset=utf-8',
	'.css': 'text/css; charset=utf-8',
	'.json': 'application/json; charset=utf-8',
	'.webmanifest': 'application/manifest+json; charset=utf-8',
	'.svg': 'image/svg+xml; charset=utf-8',
	'.png': 'image/png',
	'.ico': 'image/x-icon',
	'.woff2': 'font/woff2',
	'.wasm': 'application/wasm',
	'.txt': 'text/plain; charset=utf-8',
};

/** Scripts, workers and styles from this origin only: nothing inline, nothing from elsewhere, nothing sent out. */
export const contentSecurityPolicy = [
	"default-src 'none'",
	"script-src 'self'",
	"worker-src 'self'",
	"style-src 'self'",
	"img-src 'self' data: blob:",
	"font-src 'self'",
	"connect-src 'self'",
	"manifest-src 'self'",
	"base-uri 'none'",
	"form-action 'none'",
	"frame-ancestors 'none'",
].join('; ');

/**
 * Serves a folder of static files on loopback. Where the port is taken, the
 * next free one above it is used.
 *
 * @param {string} folder
 * @param {{ port?: number, onTaken?: (port: number) => void }} [options] port 0: any free one
 * @returns {Promise<{ address: string, port: number, close: () => Promise<void> }>}
 */
export async function serveFolder(folder, { port = 0, onTaken = () => {} } = {}) {
	const root = await realpath(folder);
	const server = createServer((request, response) => {
		respond(root, request, response).catch(() => {
			if (!response.headersSent) response.writeHead(500);
			response.end();
		});
	});
	const used = await listen(server, port, onTaken);
	return {
		address: `http://127.0.0.1:${used}/`,
		port: used,
		close: () =>
			new Promise((resolve) => {
				server.close(() => resolve());
				server.closeAllConnections();
			}),
	};
}

/**
 * @param {import('node:http').Server} server
 * @param {number} first
 * @param {(port: number) => void} onTaken
 * @returns {Promise<number>}
 */
async function listen(server, first, onTaken) {
	for (let port = first; port < first + 100 && port <= 65535; port++) {
		const error = await new Promise((resolve) => {
			server.once('error', resolve);
			server.listen(port, '127.0.0.1', () => {
				server.off('error', resolve);
				resolve(undefined);
			});
		});
		const address = server.address();
		if (error === undefined && address !== null && typeof address === 'object') return address.port;
		if (error.code !== 'EADDRINUSE' && error.code !== 'EACCES') throw error;
		onTaken(port);
	}
	throw new Error(`no free port from ${first} on`);
}

/**
 * @param {string} root
 * @param {import('node:http').IncomingMessage} request
 * @param {import('node:http').ServerResponse} response
 */
async function respond(root, request, response) {
	response.setHeader('content-security-policy', contentSecurityPolicy);
	response.setHeader('x-content-type-options', 'nosniff');
	response.setHeader('referrer-policy', 'no-referrer');
	response.setHeader('cache-control', 'no-cache');
	if (request.method !== 'GET' && request.method !== 'HEAD') {
		response.writeHead(405, { allow: 'GET, HEAD' }).end();
		return;
	}
	const file = await fileFor(root, request.url ?? '/');
	if (file === undefined) {
		response.writeHead(404, { 'content-type': 'text/plain; charset=utf-8' }).end('There is no such file.\n');
		return;
	}
	response.writeHead(200, {
		'content-type': mediaTypes[extname(file.path)] ?? 'application/octet-stream',
		'content-length': file.size,
	});
	if (request.method === 'HEAD') response.end();
	else
		createReadStream(file.path)
			.on('error', () => response.destroy())
			.pipe(response);
}

/**
 * The file a request names, only where it truly lies inside the root (links
 * followed) and no part of its path is hidden.
 *
 * @param {string} root
 * @param {string} url
 * @returns {Promise<{ path: string, size: number } | undefined>}
 */
async function fileFor(root, url) {
	try {
		const path = decodeURIComponent(url.replace(/[?#].*$/s, ''));
		if (path.includes('\0') || path.split(/[/\\]/).some((part) => part.startsWith('.'))) return undefined;
		const real = await realpath(join(root, path.endsWith('/') ? `${path}index.html` : path));
		if (!real.startsWith(root + sep)) return undefined;
		const status = await stat(real);
		return status.isFile() ? { path: real, size: status.size } : undefined;
	} catch {
		return undefined; // not decodable or not there
	}
}
