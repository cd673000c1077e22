const ENTITIES: Readonly<Record<string, string>> = {
  '&': '&amp;',
  '<': '&lt;',
  '>': '&gt;',
  '"': '&quot;',
  "'": '&#39;',
};

/** Text made safe for HTML content and for quoted attributes; control characters are dropped. */
export function escapeHtml(text: string): string {
  return dropControls(text).replace(/[&<>"']/g, (character) => ENTITIES[character]!);
}

/** JSON that can stand inside a script element: no `<`, and no line ends of Unicode. */
export function jsonForScript(value: unknown): string {
  return JSON.stringify(value)
    .replace(/</g, '\\u003c')
    .replace(/\u2028/g, '\\u2028')
    .replace(/\u2029/g, '\\u2029');
}

/** HTML lets no control characters pass but tab and line ends. */
function dropControls(text: string): string {
  let kept = '';
  for (const character of text) {
    const code = character.codePointAt(0)!;
    const isControl = (code < 32 && code !== 9 && code !== 10) || (code > 126 && code < 160);
    if (!isControl) kept += character;
  }
  return kept;
}
