/** A part of a line: text, or TeX between dollar signs. */
export type TexPart =
  | { readonly kind: 'text'; readonly text: string }
  | { readonly kind: 'tex'; readonly source: string; readonly display: boolean };

/**
 * Cuts a text at its TeX: `$$...$$` stands alone, `$...$` in the line. A dollar sign before a
 * blank or a digit that closes nothing ("5 $") is a dollar sign.
 *
 * @example
 * texParts('a $x^2$'); // text 'a ', tex 'x^2'
 */
export function texParts(text: string): TexPart[] {
  const parts: TexPart[] = [];
  let from = 0;
  const push = (upTo: number) => {
    if (upTo > from) parts.push({ kind: 'text', text: text.slice(from, upTo) });
  };
  for (const found of text.matchAll(/\$\$([^$]+)\$\$|\$([^\s$](?:[^$\n]*[^\s$])?)\$(?!\d)/g)) {
    push(found.index);
    const source = found[1] ?? found[2] ?? '';
    parts.push({ kind: 'tex', source: source.trim(), display: found[1] !== undefined });
    from = found.index + found[0].length;
  }
  push(text.length);
  return parts;
}
