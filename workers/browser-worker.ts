import { expose } from 'comlink';
import { shardApi } from './shard-api.ts';
import { workerEndpoint } from './worker-endpoint.ts';

expose(workerEndpoint(shardApi));
