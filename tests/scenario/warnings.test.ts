import { describe, expect, test } from 'vitest';
import { readScenario } from '../../shared/scenario/read-scenario.ts';
import { warnings } from '../../shared/scenario/warnings.ts';

const slow = { name: 'slow', speed: 900, torque: '9 mN·m' };
const rated = { name: 'rated', speed: 3000, torque: '100 mN·m' };
const warned = (file: object): string[] => {
	const read = readScenario(JSON.stringify({ name: 'test', points: [slow, rated], ...file }));
	if ('problems' in read) throw new Error(JSON.stringify(read.problems));
	return warnings(read.scenario);
};

// Judgement of the trade, without a source.
describe('warnings', () => {
	test('the first demo gives none', () => {
		expect(warned({})).toEqual([]);
	});

	test.each<[string, object, RegExp]>([
		[
			'a majority window that no chances are computed for',
			{ detection: { majorityWindow: 12, majorityVotes: 2 } },
			/^With a majority window of 12 readings no chances are computed \(11 at most\).*not known\.$/,
		],
		[
			'a part drawn from three measured values',
			{ sensing: { divider: { top: { value: '22k', distribution: 'measured', measured: ['1 %', '-1 %', 0] } } } },
			/^Phase divider, top: only 3 measured values: about 50\.0.% of further parts lie beyond the measured extremes/,
		],
		[
			'2E + 2RI = 28.3 V + 1.8 V on a bus of 24 V',
			{ points: [{ ...rated, speed: 4500, torque: 0.15 }] },
			/At rated: speed and torque need 30\.1 V/,
		],
		[
			'20 V needed, 19.2 V at the low end',
			{ supply: { voltage: { value: 24, range: '20 %' } } },
			/bus down at 19\.2 V the 20 V needed/,
		],
		[
			'dead times of 14 µs of an off-window of 8 µs: at rated the duty is 0.84',
			{ inverter: { chopping: 'complementary', deadTime: '14 µs' } },
			/At rated: dead times of 14 µs fill the off-window of 8\.\d+ µs/,
		],
		['half-bus in the off-window', { detection: { window: 'off' } }, /off-window of high-side chopping.*wrong circuit/],
		[
			'half-bus over the whole window',
			{ detection: { window: 'whole' } },
			/off-window of high-side chopping.*wrong circuit/,
		],
		[
			'half-bus on dividers filtered over 3.6 periods',
			{ detection: { window: 'whole' }, sensing: { divider: { capacitor: '47 nF' } } },
			/whole PWM period of high-side chopping.*wrong circuit/,
		],
		[
			'a reading before the divider has followed',
			{ sensing: { divider: { capacitor: '4.7 nF' } } },
			/divider needs about 54\.6 µs/,
		],
		[
			'a lag beyond 30°',
			{ detection: { window: 'whole' }, sensing: { divider: { capacitor: '220 nF' } } },
			/lag by about 66\.8°/,
		],
		['3 PWM periods in a sector', { inverter: { pwmFrequency: '4 kHz' } }, /At rated: a sector has 3\.3 PWM periods/],
		['blanking up to the crossing', { detection: { blanking: 28 } }, /blanking of 28° ends less than 5° before/],
		[
			'freewheeling beyond blanking',
			{ motor: { phaseInductance: '2 mH' } },
			/At rated: the outgoing phase freewheels for about 16\.8°/,
		],
		['noise worth 19°', { noise: { sigma: '67 mV' } }, /At slow: offset and three sigma of noise are worth 18\.6°/],
		[
			'a bus divider 5 % off',
			{ sensing: { halfBus: { top: '46k4' } } },
			// 4.7/(46.4 + 4.7) where half of 4.7/(22 + 4.7) should be
			/nominal gains differ: half-bus is off by 5\.\d+°.* bus divider passes 0\.092 where half of the phase divider's is 0\.088,/,
		],
		[
			'a threshold beyond the converter',
			{ sensing: { converter: { bits: 10, fullScale: 2 } } },
			/beyond the converter's full scale of 2 V/,
		],
		['a coarse converter', { sensing: { converter: { bits: 6, fullScale: 5 } } }, /one converter code is worth 7\.06°/],
		[
			'a bus divider that trails 4 V of ripple',
			{ supply: { rippleAmplitude: 4 } },
			/trails the ripple by up to 5\.5\d?°/,
		],
	])('%s', (_, file, text) => {
		const found = warned(file);
		expect(found.filter((warning) => text.test(warning))).toHaveLength(1);
	});

	test('both switches opening keeps the neutral at half the bus, so the off-window may be read', () => {
		expect(warned({ inverter: { chopping: 'both' }, detection: { window: 'off' } }).join()).not.toContain(
			'wrong circuit',
		);
	});
});
