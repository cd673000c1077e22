import { readFile } from 'node:fs/promises';
import ts from 'typescript';

/**
 * Names of the fields that a hub or a test sees: those of every interface the given modules
 * export. All other fields belong to the stages and get short names in the minified form.
 *
 * @param files paths of TypeScript modules
 */
export async function publicNames(files: readonly string[]): Promise<string[]> {
  const names = new Set<string>();
  for (const file of files) {
    const text = await readFile(file, 'utf8');
    for (const statement of ts.createSourceFile(file, text, ts.ScriptTarget.ES2022).statements) {
      if (!ts.isInterfaceDeclaration(statement)) continue;
      if (!statement.modifiers?.some((one) => one.kind === ts.SyntaxKind.ExportKeyword)) continue;
      for (const { name } of statement.members) {
        if (name !== undefined && ts.isIdentifier(name)) names.add(name.text);
      }
    }
  }
  return [...names].sort();
}
