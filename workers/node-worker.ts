import { parentPort } from 'node:worker_threads';
import { expose } from 'comlink';
import nodeEndpoint from 'comlink/dist/esm/node-adapter.mjs';
import { shardApi } from './shard-api.ts';
import { workerEndpoint } from './worker-endpoint.ts';

if (parentPort === null) throw new Error('node-worker is to be started as a worker thread');
expose(workerEndpoint(shardApi), nodeEndpoint(parentPort));
