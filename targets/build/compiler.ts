import { createRequire } from 'node:module';
import type typescript from 'typescript';

/** TypeScript; `import` would search its nine megabytes for exports first, a third of a second. */
export const compiler: typeof typescript = createRequire(import.meta.url)('typescript');
