import { expect, test } from 'vitest';
import { readAxis } from '../../shared/range/read-axis.ts';

const valuesOf = (written: string): readonly number[] => {
	const reading = readAxis(written);
	if ('problems' in reading) throw new Error(reading.problems.join('; '));
	return reading.axis.values;
};
const problemsOf = (written: string): string => {
	const reading = readAxis(written);
	return 'problems' in reading ? reading.problems.join('; ') : '';
};

test('“600 rpm..3000 rpm/7” is 600, 1000, … 3000 rpm, both ends and every step exact', () => {
	expect(valuesOf('operation.speed=600 rpm..3000 rpm/7')).toEqual([600, 1000, 1400, 1800, 2200, 2600, 3000]);
	expect(valuesOf('operation.speed = 3000..600 / 3')).toEqual([3000, 1800, 600]);
});

test('“/4 log” steps by equal factors: 1 nF, 10 nF, 100 nF, 1 µF', () => {
	const values = valuesOf('sensing.halfBus.capacitor=1n..1µ/4 log');
	for (const [i, value] of [1e-9, 1e-8, 1e-7, 1e-6].entries()) expect(values[i]).toBeCloseTo(value, 18);
	expect([values[0], values[3]]).toEqual([1e-9, 1e-6]);
});

test('a single value needs no steps, resistor marks and units with a slash of their own are read', () => {
	expect(valuesOf('operation.speed=900 rpm')).toEqual([900]);
	expect(valuesOf('sensing.divider.top=4k7..47k/2')).toEqual([4700, 47000]);
	expect(valuesOf('operation.speed=600 1/min..900 1/min/2')).toEqual([600, 900]);
	expect(valuesOf('motor.emfConstant=20 mV·s/rad..40 mV·s/rad/3')).toEqual([0.02, 0.03, 0.04]);
	expect(valuesOf('operation.motorTemperature=-40 °C..120 °C/3')).toEqual([-40, 40, 120]);
});

test.each([
	['operation.sped=1..2/2', 'did you mean operation.speed?'],
	['inverter.chopping=1..2/2', 'no numeric values'],
	['operation.share=1..2/2', 'weighs the operating points against each other and moves no drive'],
	['requirement.angleLimit=2..5/3', 'is what drives are held to and moves none of them'],
	['operation.speed', 'must be written as'],
	['operation.speed=600..3000', 'how many values'],
	['operation.speed=600..3000/1', 'how many values'],
	['operation.speed=600..3000/102', '2 to 101'],
	['operation.speed=600/3', 'one end only'],
	['operation.speed=600..3000/5 cubic', 'neither lin nor log'],
	['operation.speed=1..2..3/3', 'more than two ends'],
	['operation.speed=5..5/3', 'same value at both ends'],
	['operation.torque=0..1/3 log', 'above 0'],
	['trial.starts=1..4/3', 'comes to 2.5; starts must be a whole number'],
	['detection.intervalsAveraged=1..5/5', 'comes to 4, 5'],
	['operation.speed=600 V..3000/5', '600 V'],
	[`operation.speed=${'9'.repeat(300)}`, 'must be written as'],
])('%s is refused: %s', (written, words) => {
	expect(problemsOf(written)).toContain(words);
});

test('three things wrong with one axis are told together', () => {
	const reading = readAxis('operation.speed=0.1 rpm..x/999');
	expect('problems' in reading && reading.problems).toHaveLength(3);
	expect(problemsOf('operation.speed=0.1 rpm..x/999')).toMatch(/2 to 101.*1 rpm to 200.000 rpm.*“x”/s);
});
