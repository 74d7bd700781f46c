import { projectRoot } from './project.mjs';

/** For `resolve.alias`, where a content security policy forbids evaluating a text (generators-are-there.cjs). */
export const withoutEval = {
	'@stdlib/assert-has-generator-support': `${projectRoot}src/tooling/generators-are-there.cjs`,
};
