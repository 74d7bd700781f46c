import { defineConfig } from 'vitest/config';

export default defineConfig({
	test: {
		projects: [
			{
				test: {
					name: 'unit',
					environment: 'node',
					include: ['tests/**/*.test.ts', 'tests/**/*.test.tsx'],
					exclude: ['tests/browser/**', 'tests/end-to-end/**'],
				},
			},
		],
	},
});
