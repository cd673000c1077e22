import { readFile } from 'node:fs/promises';
import { compiler } from './compiler.ts';

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
    for (const statement of compiler.createSourceFile(file, text, compiler.ScriptTarget.ES2022)
      .statements) {
      if (!compiler.isInterfaceDeclaration(statement)) continue;
      if (!statement.modifiers?.some((one) => one.kind === compiler.SyntaxKind.ExportKeyword))
        continue;
      for (const { name } of statement.members) {
        if (name !== undefined && compiler.isIdentifier(name)) names.add(name.text);
      }
    }
  }
  return [...names].sort();
}
