import { serveCalls } from '../host/serve-calls.ts';
import { questions } from './questions.ts';

serveCalls(questions);
