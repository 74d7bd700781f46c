import { expect, test } from 'vitest';
import { farCalls } from '../../src/host/far-calls.ts';
import { serveCalls } from '../../src/host/serve-calls.ts';

interface Watch {
	readonly onTold: (word: string) => void;
}

const functions = {
	tells: async (words: readonly string[], { onTold }: Watch) => {
		for (const word of words) onTold(word);
		return words.length;
	},
	tellsAndFails: async (word: string, { onTold }: Watch): Promise<number> => {
		onTold(word);
		throw new Error('it failed');
	},
};

/** A thread behind a channel. Callbacks, which comlink gives a channel of their own, take 5 ms more than answers. */
function threadWithSlowCallbacks(): Worker {
	const { port1: near, port2: far } = new MessageChannel();
	serveCalls(functions, far);
	near.start();
	far.start();
	const post = near.postMessage.bind(near);
	return Object.assign(near, {
		postMessage(message: { argumentList?: { value: unknown }[] }, ports: Transferable[] = []) {
			const slow = ports.map((port) => (port instanceof MessagePort ? slowed(port) : port));
			for (const given of message.argumentList ?? []) {
				if (given.value instanceof MessagePort) given.value = slow[ports.indexOf(given.value)];
			}
			post(message, slow);
		},
		terminate: () => far.close(),
	}) as unknown as Worker;
}

/** A port that hands on to another what it is told, late. */
function slowed(port: MessagePort): MessagePort {
	const { port1, port2 } = new MessageChannel();
	port2.onmessage = ({ data, ports }) => setTimeout(() => port.postMessage(data, [...ports]), 5);
	port.onmessage = ({ data }) => port2.postMessage(data);
	return port1;
}

test('every callback of a call is heard before its answer, so that nothing it hands over is lost', async () => {
	const far = farCalls<typeof functions>(threadWithSlowCallbacks);
	for (let call = 0; call < 20; call += 1) {
		const heard: string[] = [];
		const words = ['one', 'two', 'three'];
		expect(await far.call('tells', words, { onTold: (word) => heard.push(word) })).toBe(3);
		expect(heard).toEqual(words);
	}
});

test('a call that fails after a callback is answered with its error, the callback heard', async () => {
	const heard: string[] = [];
	const failing = farCalls<typeof functions>(threadWithSlowCallbacks).call('tellsAndFails', 'one', {
		onTold: (word) => heard.push(word),
	});
	await expect(failing).rejects.toThrow('it failed');
	expect(heard).toEqual(['one']);
});
