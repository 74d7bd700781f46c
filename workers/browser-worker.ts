import { exposeInBrowser } from './browser-expose.ts';
import { shardApi } from './shard-api.ts';

exposeInBrowser(shardApi);
