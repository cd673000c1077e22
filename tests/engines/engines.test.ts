import { describe, expect, it } from 'vitest';
import { EngineError } from '../../harness/engines/engine.ts';
import { engineByName, engines } from '../../harness/engines/engines.ts';
import { UserError } from '../../harness/problems.ts';
import { usableEngines } from './usable-engines.ts';

describe.each(usableEngines.map((engine) => [engine.name, engine] as const))(
  '%s',
  (name, engine) => {
    it('gives back what the script printed, line by line', async () => {
      expect(await engine.run('var i; for (i = 1; i < 4; i++) print(i * i); print("end");')).toBe(
        '1\n4\n9\nend\n',
      );
      expect(await engine.run('')).toBe('');
    });

    it('starts every script on a fresh heap', async () => {
      await engine.run('var left = 1;');
      expect(await engine.run('print(typeof left);')).toBe('undefined\n');
    });

    it.each([
      ['throws', 'print(1);\nthrow new Error("broken axle");', 'broken axle'],
      ['throws what is no error', 'throw "lost wheel";', 'lost wheel'],
      ['does not parse', 'var 1;', 'SyntaxError'],
    ])('says so if a script %s', async (_how, script, said) => {
      const run = engine.run(script);
      await expect(run).rejects.toBeInstanceOf(EngineError);
      await expect(run).rejects.toThrow(name);
      await expect(run).rejects.toThrow(said);
    });
  },
);

describe('choosing an engine', () => {
  it('finds each by its name, or says why it cannot be used here', () => {
    expect(engines.map(({ name }) => name)).toEqual(['node', 'quickjs', 'duktape', 'mujs']);
    for (const engine of usableEngines) expect(engineByName(engine.name)).toBe(engine);
  });

  it('refuses an unknown name and lists the known ones', () => {
    expect(() => engineByName('steam')).toThrow(UserError);
    expect(() => engineByName('steam')).toThrow('Choose one of node, quickjs, duktape, mujs.');
  });

  it('names the Debian package of a command that is not there', () => {
    const path = process.env.PATH;
    process.env.PATH = '/nonexistent';
    try {
      expect(() => engineByName('duktape')).toThrow('apt-get install duktape');
      expect(() => engineByName('mujs')).toThrow('apt-get install mujs');
    } finally {
      process.env.PATH = path;
    }
  });
});
