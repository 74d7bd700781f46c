import { runOnNode } from './run-on-node.ts';

await runOnNode(async () => (await import('./origins.ts')).origins);
