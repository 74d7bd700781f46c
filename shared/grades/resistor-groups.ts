import type { ChoiceName, PerChoice } from '../drive/drive.ts';
import type { NumberRecord } from '../parameters/parameter.ts';
import { parameter } from '../parameters/parameters.ts';

/** Groups of sensing resistors that are bought in one grade. */
const groupNames = ['divider', 'busDivider', 'star'] as const;
export type GroupName = (typeof groupNames)[number];
/** What grades are asked for: one group, or all of them alike. */
export const askedGroups = ['all', ...groupNames] as const;
export type AskedGroup = (typeof askedGroups)[number];

/** Parameter ids of a group's resistors. */
const groupIds: Readonly<Record<GroupName, readonly string[]>> = {
	divider: ['sensing.divider.top', 'sensing.divider.bottom'],
	busDivider: ['sensing.halfBus.top', 'sensing.halfBus.bottom'],
	star: ['sensing.virtualNeutral.star', 'sensing.virtualNeutral.ground'],
};

/** In print, after “the”. */
export const groupWords: Readonly<Record<AskedGroup, string>> = {
	divider: 'phase dividers',
	busDivider: 'bus divider',
	star: 'star',
	all: 'sensing resistors',
};

/** Groups that a board with each sensing choice is built with; the other choice's threshold is not on it. */
export const groupsOfChoice: PerChoice<readonly GroupName[]> = {
	halfBus: ['divider', 'busDivider'],
	virtualNeutral: ['divider', 'star'],
};

const groupsOf = (asked: AskedGroup): readonly GroupName[] => (asked === 'all' ? groupNames : [asked]);

/** The records of a group's resistors. */
export function resistorsOf(asked: AskedGroup): readonly NumberRecord[] {
	return groupsOf(asked).flatMap((group) => groupIds[group].map((id) => parameter(id) as NumberRecord));
}

/** Resistors of the groups asked for that a board with this choice carries. */
export function resistorCount(asked: AskedGroup, choice: ChoiceName): number {
	return groupsOf(asked)
		.filter((group) => groupsOfChoice[choice].includes(group))
		.reduce((count, group) => count + resistorsOf(group).reduce((sum, { instances }) => sum + instances, 0), 0);
}
