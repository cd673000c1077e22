import { mkdirSync, mkdtempSync, readFileSync, rmSync, symlinkSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';
import { Script } from 'node:vm';
import ts from 'typescript';
import { afterAll, expect, test } from 'vitest';
import { renderReport } from '../../harness/report/render-report.ts';
import type { ReportData } from '../../harness/report/report-data.ts';
import { sourcesIn } from '../tidy/sources.ts';
import { sampleReport } from './sample-report.ts';

const root = fileURLToPath(new URL('../../', import.meta.url));
const folder = mkdtempSync(join(tmpdir(), 'built-report-'));

afterAll(() => rmSync(folder, { recursive: true }));

test('the built package renders the page of the sources, with a script that compiles', async () => {
  const entry = build();
  const built: { renderReport(data: ReportData): string } = await import(pathToFileURL(entry).href);
  const page = built.renderReport(sampleReport());
  expect(apart(page).page).toBe(apart(renderReport(sampleReport())).page);
  expect(() => new Script(apart(page).script)).not.toThrow();
  expect(apart(page).script).toContain('beforeprint');
});

/** The page without its script, whose short names depend on what it was compiled from. */
function apart(html: string): { page: string; script: string } {
  const script = html.match(/<script>([\s\S]*?)<\/script>/)![1]!;
  return { page: html.replace(script, () => '').replace(/'sha256-[^']*'/, ''), script };
}

/** Compiles the report's files one by one, as the build does, beside the real packages. */
function build(): string {
  symlinkSync(join(root, 'node_modules'), join(folder, 'node_modules'));
  writeFileSync(join(folder, 'package.json'), '{"type":"module"}');
  const sources = [
    'harness/problems.ts',
    'harness/refuse-foreign.ts',
    ...sourcesIn('harness/report'),
  ];
  for (const source of sources) {
    const { outputText } = ts.transpileModule(readFileSync(join(root, source), 'utf8'), {
      fileName: source,
      compilerOptions: {
        target: ts.ScriptTarget.ES2022,
        module: ts.ModuleKind.ESNext,
        verbatimModuleSyntax: true,
        rewriteRelativeImportExtensions: true,
      },
    });
    const target = join(folder, 'dist', source.replace(/\.ts$/, '.js'));
    mkdirSync(dirname(target), { recursive: true });
    writeFileSync(target, outputText);
  }
  return join(folder, 'dist/harness/report/render-report.js');
}
