import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import ts from 'typescript';
import { describe, expect, test } from 'vitest';
import { describeField } from '../../harness/setup/describe-field.ts';
import { listFields } from '../../harness/setup/list-fields.ts';
import { packageRoot } from '../../targets/package-root.ts';

const FILE = join(packageRoot(), 'tests', 'setup', 'typed-in-an-editor.ts');

const TEXT = `import { defineSetup, defineSurface, defineVehicle } from 'axlewright';

export const setup = defineSetup({
  name: 'a',
  surface: 'b',
  split: { cutCurve: 2 },
  link: { steeringOnLoss: 'hodl' },
  slew: { risePercent: 200 },
});
export const surface = defineSurface({ name: 'a', friction: 0.6 });
export const heat: Parameters<typeof defineVehicle>[0]['motor']['heat'] = {
  kind: 'i2t',
  timeConstantS: 30,
};
export const layout: ReturnType<typeof defineVehicle>['layout'] = 'pairs';
export const holdMs: number = setup.link?.holdMs ?? 300;
`;

/** What an editor asks: the language service over one file that a user is typing. */
function editor(): ts.LanguageService {
  const config = ts.readConfigFile(join(packageRoot(), 'tsconfig.json'), ts.sys.readFile);
  const { options } = ts.parseJsonConfigFileContent(config.config, ts.sys, packageRoot());
  return ts.createLanguageService({
    getCompilationSettings: () => options,
    getScriptFileNames: () => [FILE],
    getScriptVersion: () => '1',
    getScriptSnapshot: (name) =>
      name === FILE
        ? ts.ScriptSnapshot.fromString(TEXT)
        : ts.sys.fileExists(name)
          ? ts.ScriptSnapshot.fromString(readFileSync(name, 'utf8'))
          : undefined,
    getCurrentDirectory: packageRoot,
    getDefaultLibFileName: ts.getDefaultLibFilePath,
    fileExists: (name) => name === FILE || ts.sys.fileExists(name),
    readFile: ts.sys.readFile,
    readDirectory: ts.sys.readDirectory,
    directoryExists: ts.sys.directoryExists,
    getDirectories: ts.sys.getDirectories,
  });
}

describe('in an editor', () => {
  const service = editor();

  test.each([
    ['cutCurve', 'split.cutCurve'],
    ['steeringOnLoss', 'link.steeringOnLoss'],
    ['friction:', 'friction'],
    ['timeConstantS', 'motor.heat.timeConstantS'],
  ])('hovering over %s shows its reference', (word, path) => {
    const info = service.getQuickInfoAtPosition(FILE, TEXT.indexOf(word));
    const shown = ts.displayPartsToString(info?.documentation).replaceAll(/\s+/g, ' ');
    const field = listFields().find((each) => each.path === path);
    expect(shown).toBe(field && describeField(field).join(' ').replaceAll(/\s+/g, ' '));
  });

  test('each mistake is marked where it was made, and nothing else is', () => {
    const marks = service.getSemanticDiagnostics(FILE).map(({ start, length, messageText }) => ({
      at: TEXT.slice(start, (start ?? 0) + (length ?? 0)),
      text: ts.flattenDiagnosticMessageText(messageText, ' '),
    }));
    expect(marks.map(({ at }) => at)).toEqual([
      'steeringOnLoss',
      'risePercent',
      "{ name: 'a', friction: 0.6 }",
      'layout',
    ]);
    expect(marks[0]?.text).toContain(`'"hodl"' is not assignable to type 'number | "hold"`);
    expect(marks[1]?.text).toContain("'risePercent' does not exist in type");
    expect(marks[2]?.text).toContain('source, frictionLow, frictionHigh');
    expect(marks[3]?.text).toContain(`'"pairs"' is not assignable`);
  });
});
