import { readFileSync } from 'node:fs';
import { dirname, join, normalize } from 'node:path';
import ts from 'typescript';
import { describe, expect, it } from 'vitest';
import { ROOT, sourcesIn } from './sources.ts';

/** Which rooms a file of each room may import from; the demo garages stand for a user's files. */
const MAY_IMPORT: Readonly<Record<string, readonly string[]>> = {
  lib: ['lib'],
  targets: ['lib', 'targets'],
  harness: ['lib', 'targets', 'harness'],
};

describe('import arrows', () => {
  for (const [room, allowed] of Object.entries(MAY_IMPORT)) {
    it(`${room} imports only from ${allowed.join(', ')}`, () => {
      const files = sources(room);
      expect(files.length).toBeGreaterThan(3);
      const strays = files.flatMap((file) =>
        imports(file)
          .filter((target) => target.startsWith('.'))
          .map((target) => normalize(join(dirname(file), target)))
          .filter((target) => !allowed.includes(target.split('/')[0]!))
          .map((target) => `${file} imports ${target}`),
      );
      expect(strays).toEqual([]);
    });
  }

  it('lib depends on no package', () => {
    const foreign = sources('lib').flatMap((file) =>
      imports(file)
        .filter((target) => !target.startsWith('.'))
        .map((target) => `${file} imports ${target}`),
    );
    expect(foreign).toEqual([]);
  });

  it('no file of lib, targets or harness imports a test', () => {
    const strays = ['lib', 'targets', 'harness'].flatMap((room) =>
      sources(room).filter((file) => imports(file).some((target) => /\btests\//.test(target))),
    );
    expect(strays).toEqual([]);
  });
});

function sources(room: string): string[] {
  return sourcesIn(room).filter((file) => !file.startsWith('harness/demo/garages/'));
}

function imports(file: string): string[] {
  const text = readFileSync(join(ROOT, file), 'utf8');
  return ts.preProcessFile(text).importedFiles.map((found) => found.fileName);
}
