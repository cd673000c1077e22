/** A name in the letters that a bundle's header and a file name can hold. */
export function headerName(name: string): string {
  const plain = name.normalize('NFKD').replace(/[^\w.-]+/g, '-');
  return plain.replace(/^[-.]+|-+$/g, '').toLowerCase() || 'unnamed';
}
