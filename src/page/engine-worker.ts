import { serveCalls } from '../host/serve-calls.ts';
import { startEngine } from './engine.ts';

serveCalls(startEngine());
