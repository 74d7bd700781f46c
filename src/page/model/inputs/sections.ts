import type { Group } from '../../../../shared/parameters/parameter.ts';

/** The inputs as an engineer thinks of them: each a part of the form, with the groups of parameters it holds. */
export interface InputSection {
	readonly id: string;
	readonly title: string;
	readonly groups: readonly Group[];
}

export const inputSections: readonly InputSection[] = [
	{ id: 'motor', title: 'Motor', groups: ['motor'] },
	{ id: 'inverter', title: 'Bus and inverter', groups: ['supply', 'inverter'] },
	{ id: 'sensing', title: 'Sensing network', groups: ['divider', 'halfBus', 'virtualNeutral', 'comparator'] },
	{ id: 'detection', title: 'Detection', groups: ['detection'] },
	{ id: 'noise', title: 'Noise', groups: ['noise'] },
	{ id: 'operation', title: 'Operating points', groups: ['operation'] },
	{ id: 'requirement', title: 'Requirement', groups: ['requirement'] },
	{ id: 'trial', title: 'Starts and sectors simulated', groups: ['trial'] },
];

/** What a group is called within its section; '' where the section says it all. */
export const groupTitles: Readonly<Record<Group, string>> = {
	motor: '',
	supply: 'Bus',
	inverter: 'Inverter',
	divider: 'Phase dividers, one a phase',
	halfBus: 'Half-bus threshold',
	virtualNeutral: 'Virtual neutral',
	comparator: 'Comparator and converter',
	detection: '',
	noise: '',
	operation: 'All points',
	requirement: '',
	trial: '',
};
