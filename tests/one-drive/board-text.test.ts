import { expect, test } from 'vitest';
import { buildDrive } from '../../shared/drive/build-drive.ts';
import { boardText, readBoardText } from '../../shared/one-drive/board-text.ts';
import { buildRequest, drawBoard } from '../../shared/one-drive/build-request.ts';
import { demoPlan } from './demo-plan.ts';

test.each(['fan-24v.json', 'pump-12v.json', 'rectified-slow.json', 'spindle-48v.json'])(
	'%s: a drawn drive written as a board and read again is the same drive to the last bit',
	(file) => {
		const request = { plan: demoPlan(file), unit: 6, point: 1, start: 1 };
		const drawn = drawBoard(request);
		const read = readBoardText(boardText(drawn, 'unit 6'), request.plan.compensation);
		if (!('board' in read)) throw new Error(JSON.stringify(read.problems));
		const { values, deviations, compensation } = read.board;
		expect(buildDrive(values, deviations, compensation)).toEqual(buildRequest(request).drive);
	},
);

test('a board that states its compensation keeps it, for both choices', () => {
	const text = '{"cases": [{"parameters": {"detection.compensation": "60 µs"}}]}';
	expect(readBoardText(text, { halfBus: 1, virtualNeutral: 2 })).toMatchObject({
		board: { compensation: { halfBus: 60e-6, virtualNeutral: 60e-6 } },
	});
	const silent = '{"cases": [{"parameters": {}}]}';
	expect(readBoardText(silent, { halfBus: 1, virtualNeutral: 2 })).toMatchObject({
		board: { compensation: { halfBus: 1, virtualNeutral: 2 } },
	});
});

test('no board, two boards and broken text are refused in words', () => {
	expect(readBoardText('{"cases": [{}, {}]}', { halfBus: 0, virtualNeutral: 0 })).toEqual({
		problems: [{ path: 'cases', value: '2', message: 'must hold one board here, the one that is looked at' }],
	});
	for (const text of ['', '{', '{"cases": 3}', '{"cases": [{"deviations": {"motor.flatTopp": 1}}]}'])
		expect(readBoardText(text, { halfBus: 0, virtualNeutral: 0 })).toHaveProperty('problems');
});
