import { createController } from '../../lib/index.ts';
import type { Core } from './judge.ts';

/** The core as TypeScript source. */
export const sourceCore: Core = { name: 'the TypeScript source', createController };
