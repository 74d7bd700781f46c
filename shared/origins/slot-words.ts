import { parameter } from '../parameters/parameters.ts';
import { partSlots } from '../sampling/draw-parts.ts';

const phases = ['a', 'b', 'c'];
/** The resistors that have a temperature coefficient each, in the order of build-drive.ts. */
const resistors = [
	...phases.map((phase) => `divider top ${phase}`),
	...phases.map((phase) => `divider bottom ${phase}`),
	'bus divider top',
	'bus divider bottom',
	...phases.map((phase) => `star ${phase}`),
	'star ground',
];

/** What a part's slot is called: "star resistor b", "phase resistance, common". */
export function partSlotWords(slot: number): string {
	const { id, source } = partSlots[slot] ?? { id: '', source: 0 };
	if (id === 'ringPhase') return 'ringing phase';
	const record = parameter(id);
	const instances = record.kind === 'choice' ? 1 : record.instances;
	if (instances === 12) return source === 'lot' ? 'resistor drift, common' : `drift of ${resistors[source] ?? source}`;
	if (source === 'lot') return instances === 1 ? record.name : `${record.name}, common`;
	return instances === 3 ? `${record.name} ${phases[source]}` : record.name;
}
