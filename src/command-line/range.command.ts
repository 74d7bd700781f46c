import { runOnNode } from './run-on-node.ts';

await runOnNode(async () => (await import('./range.ts')).range);
