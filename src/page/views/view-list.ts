import type { ComponentType } from 'preact';
import type { PageModel } from '../model/page-model.ts';
import type { ViewName } from '../model/route.ts';
import { WhichChoice } from './which-choice/which-choice.tsx';

export type View = ComponentType<{ model: PageModel }>;

/** What draws each view: the first one is here from the start, the others are loaded when they are first wanted. */
export const viewList: Readonly<Record<ViewName, { readonly here: View } | { readonly load: () => Promise<View> }>> = {
	'which-choice': { here: WhichChoice },
	grades: { load: async () => (await import('./grades/grades.tsx')).GradesView },
	origins: { load: async () => (await import('./origins/origins.tsx')).OriginsView },
	limits: { load: async () => (await import('./limits/limits.tsx')).LimitsView },
	'what-changed': { load: async () => (await import('./what-changed/what-changed.tsx')).WhatChanged },
	sign: { load: async () => (await import('./sign/sign.tsx')).SignView },
	kept: { load: async () => (await import('./kept/kept.tsx')).KeptView },
	'one-drive': { load: async () => (await import('./one-drive/one-drive.tsx')).OneDriveView },
};
