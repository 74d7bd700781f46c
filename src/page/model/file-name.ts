import type { PageModel } from './page-model.ts';

/** What files of the present scenario are called, without their ending. */
export function fileName({ scenario, source }: Pick<PageModel, 'scenario' | 'source'>): string {
	const name = scenario.value?.name ?? source.value.file.replace(/\.json$/, '');
	const plain = name
		.toLowerCase()
		.replace(/[^a-z0-9]+/g, '-')
		.replace(/^-|-$/g, '');
	return plain || 'scenario';
}
