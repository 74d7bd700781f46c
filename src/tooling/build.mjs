import { ensureBuilt } from './ensure-built.mjs';

/* npm run build: both parts from scratch. */

for (const part of /** @type {const} */ (['command-line', 'page'])) await ensureBuilt(part, { force: true });
