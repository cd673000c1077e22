/** Code blocks of that language, with the indent of the list they stand in taken off. */
export function codeBlocks(markdown: string, language: string): string[] {
  const fences = new RegExp(`^( *)\`\`\`${language}\\n([\\s\\S]*?)^ *\`\`\`$`, 'gm');
  return [...markdown.matchAll(fences)].map(([, indent, body]) =>
    body!.replace(new RegExp(`^${indent}`, 'gm'), ''),
  );
}
