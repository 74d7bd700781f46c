import { once } from 'node:events';
import { mkdirSync, symlinkSync, writeFileSync } from 'node:fs';
import { request } from 'node:http';
import { connect } from 'node:net';
import { expect, onTestFinished, test } from 'vitest';
import { serveFolder } from '../../src/tooling/serve-folder.mjs';
import { temporaryFolder } from './temporary-folder.ts';

async function servePage() {
	const outer = temporaryFolder({
		'secret.txt': 'secret',
		'page/index.html': '<p>here</p>',
		'page/assets/main.js': 'export {}',
		'page/.built-from': 'digest',
		'page-two/other.txt': 'secret',
	});
	const server = await serveFolder(`${outer}page`);
	onTestFinished(server.close);
	return { outer, ...server };
}

/** Sends the path as it is; `fetch` would tidy `..` away first. */
function get(port: number, path: string, method = 'GET'): Promise<{ status: number; body: string }> {
	return new Promise((resolve, reject) => {
		request({ host: '127.0.0.1', port, path, method }, (response) => {
			let body = '';
			response.on('data', (chunk) => {
				body += chunk;
			});
			response.on('end', () => resolve({ status: response.statusCode ?? 0, body }));
		})
			.on('error', reject)
			.end();
	});
}

test('a page is served with its media type and a policy that allows own scripts only', async () => {
	const { address } = await servePage();
	const page = await fetch(address);
	expect(await page.text()).toBe('<p>here</p>');
	expect(page.headers.get('content-type')).toBe('text/html; charset=utf-8');
	const policy = page.headers.get('content-security-policy');
	expect(policy).toContain("script-src 'self';");
	expect(policy).toContain("default-src 'none'");
	expect(policy).not.toContain('unsafe');
	// a module script is refused by browsers under any other type (HTML standard, fetch a module script)
	const script = await fetch(`${address}assets/main.js`);
	expect(script.headers.get('content-type')).toBe('text/javascript; charset=utf-8');
	expect(script.headers.get('content-security-policy')).toBe(policy);
});

test('no path leads out of the folder, nor to a hidden file', async () => {
	const { outer, port } = await servePage();
	symlinkSync(`${outer}secret.txt`, `${outer}page/link.txt`);
	const outside = [
		'/../secret.txt',
		'/%2e%2e/secret.txt',
		'/..%2fsecret.txt',
		'/assets/../../secret.txt',
		'/..%5csecret.txt',
		'/../page-two/other.txt',
		'//../secret.txt',
		'/link.txt',
		'/.built-from',
		'/%00',
		'/%',
		`/${outer}secret.txt`,
	];
	for (const path of outside) {
		const { status, body } = await get(port, path);
		expect({ path, status, secret: body.includes('secret') }).toEqual({ path, status: 404, secret: false });
	}
});

test('only GET and HEAD are answered, and a folder without index is not listed', async () => {
	const { port } = await servePage();
	expect(await get(port, '/', 'POST')).toMatchObject({ status: 405 });
	expect(await get(port, '/index.html', 'HEAD')).toEqual({ status: 200, body: '' });
	expect(await get(port, '/assets/')).toMatchObject({ status: 404 });
	expect(await get(port, '/assets')).toMatchObject({ status: 404 });
	expect(await get(port, '/index.html?query#hash')).toMatchObject({ status: 200 });
});

test('a taken port is reported and a later one used', async () => {
	const folder = temporaryFolder();
	mkdirSync(`${folder}page`);
	writeFileSync(`${folder}page/index.html`, 'second');
	const first = await serveFolder(`${folder}page`);
	onTestFinished(first.close);
	const taken: number[] = [];
	const second = await serveFolder(`${folder}page`, { port: first.port, onTaken: (port) => taken.push(port) });
	onTestFinished(second.close);
	expect(taken[0]).toBe(first.port);
	expect(second.port).toBe(first.port + taken.length);
	expect(await (await fetch(second.address)).text()).toBe('second');
});

test('closing ends open connections, so that a stop is not held up by a browser', async () => {
	const folder = temporaryFolder({ 'index.html': 'page' });
	const server = await serveFolder(folder);
	const socket = connect(server.port, '127.0.0.1');
	await once(socket, 'connect');
	await (await fetch(server.address)).text(); // so that the server has taken the one before
	let isOpen = true;
	socket.on('close', () => {
		isOpen = false;
	});
	socket.on('error', () => {});
	// one that asks nothing would hold it for minutes: the test would time out
	await server.close();
	await expect.poll(() => isOpen).toBe(false);
	await expect(fetch(server.address)).rejects.toThrow();
});
