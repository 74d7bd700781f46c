import type { Browser, CDPSession, Page } from 'playwright-core';

/** One of a page's threads, as the browser's own tools see it. */
export interface PageThread {
	/** The script it runs; '' for the page's own thread. */
	readonly script: string;
	/** Bytes of its objects and buffers after a collection. */
	held(): Promise<number>;
	/** How many objects it holds, after a collection, that have the prototype which `expression` names in it. */
	count(expression: string): Promise<number>;
}

type Send = (method: string, parameters?: object) => Promise<unknown>;

/** The page's own thread, then its workers with those that they started. */
export async function pageThreads(browser: Browser, page: Page): Promise<readonly PageThread[]> {
	const own = await page.context().newCDPSession(page);
	const ofBrowser = await browser.newBrowserCDPSession();
	const { targetInfo } = await own.send('Target.getTargetInfo');
	const { targetInfos } = await ofBrowser.send('Target.getTargets', { filter: [{}] });
	const workers = targetInfos.filter(
		({ type, browserContextId }) => type === 'worker' && browserContextId === targetInfo.browserContextId,
	);
	return [
		thread('', own.send.bind(own) as Send),
		...(await Promise.all(workers.map(async ({ targetId, url }) => thread(url, await senderTo(ofBrowser, targetId))))),
	];
}

function thread(script: string, send: Send): PageThread {
	return {
		script,
		async held() {
			await send('HeapProfiler.collectGarbage');
			const usage = (await send('Runtime.getHeapUsage')) as { usedSize: number; backingStorageSize?: number };
			return usage.usedSize + (usage.backingStorageSize ?? 0);
		},
		async count(expression) {
			const group = { objectGroup: 'counted' };
			const { result } = (await send('Runtime.evaluate', { expression, ...group })) as Remote;
			// it collects garbage itself
			const { objects } = (await send('Runtime.queryObjects', { prototypeObjectId: result.objectId, ...group })) as {
				objects: Remote['result'];
			};
			const length = (await send('Runtime.callFunctionOn', {
				objectId: objects.objectId,
				functionDeclaration: 'function () { return this.length; }',
				returnByValue: true,
			})) as Remote;
			await send('Runtime.releaseObjectGroup', group);
			return length.result.value as number;
		},
	};
}

interface Remote {
	readonly result: { readonly objectId: string; readonly value?: unknown };
}

/** What sends commands to a worker: playwright has no session for one that another worker started. */
async function senderTo(ofBrowser: CDPSession, targetId: string): Promise<Send> {
	const { sessionId } = await ofBrowser.send('Target.attachToTarget', { targetId, flatten: false });
	const waiting = new Map<number, (answer: { readonly result?: unknown; readonly error?: unknown }) => void>();
	ofBrowser.on('Target.receivedMessageFromTarget', (event) => {
		if (event.sessionId !== sessionId) return;
		const answer = JSON.parse(event.message) as { readonly id?: number; readonly result?: unknown };
		waiting.get(answer.id ?? 0)?.(answer);
	});
	let sent = 0;
	return async (method, params = {}) => {
		sent += 1;
		const id = sent;
		const answered = new Promise<{ readonly result?: unknown; readonly error?: unknown }>((resolve) =>
			waiting.set(id, resolve),
		);
		const message = JSON.stringify({ id, method, params });
		await ofBrowser.send('Target.sendMessageToTarget', { sessionId, message });
		const { result, error } = await answered;
		waiting.delete(id);
		if (error) throw new Error(`${method}: ${JSON.stringify(error)}`);
		return result;
	};
}
