// Worker threads do not take over the loader of TypeScript that the command line runs with.
import { register } from 'tsx/esm/api';

register();
await import('./worker.ts');
