import { exposeInNode } from './node-expose.ts';
import { shardApi } from './shard-api.ts';

exposeInNode(shardApi);
