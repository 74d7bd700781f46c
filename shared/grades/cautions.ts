import { canAct } from '../parameters/acting-parts.ts';
import type { Scenario } from '../scenario/scenario.ts';
import type { Grade } from './grade.ts';
import { type AskedGroup, resistorsOf } from './resistor-groups.ts';

/** What must be known with a comparison of these grades. */
export function gradeCautions(scenario: Scenario, group: AskedGroup, grades: readonly Grade[]): readonly string[] {
	const resistors = resistorsOf(group);
	const cautions: string[] = [];
	const measured = resistors.filter(({ id }) => scenario.tolerances[id]?.distribution === 'measured');
	if (measured.length > 0) {
		const names = measured.map(({ name }) => name).join(', ');
		cautions.push(`Measured deviations (${names}) say nothing of another grade: its tolerance is drawn uniform.`);
	}
	if (grades.some(({ lot }) => lot > 0)) {
		const lone = resistors.filter(({ instances }) => instances === 1).map(({ name }) => name);
		const alone = lone.length > 0 ? ` A lone resistor (${lone.join(', ')}) gains nothing from it.` : '';
		cautions.push(
			`An array is taken to hold the resistors of one value: each value has an absolute deviation of its own, common to its resistors so that it does not average out, and the ratio tolerance holds within it.${alone}`,
		);
	}
	const warm = scenario.points.some(({ values, ranges }) => canAct('sensing.resistorCoefficient', values, ranges));
	if (warm) {
		cautions.push(
			'Tighter grades often drift less with temperature too; here the temperature coefficient stays as the scenario states it, also with exact resistors.',
		);
	}
	return cautions;
}
