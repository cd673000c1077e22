import { laptopCore } from './laptop-core.ts';

// Once what it is made of stands: the first replay need not wait for it.
await laptopCore();
