/**
 * The slow, obvious reader of RFC 4180 text: one character at a time, one state.
 * It knows no recovery: undefined when a quote is broken anywhere.
 */
export function csvByCharacter(text: string, delimiter: string): string[][] | undefined {
  const rows: string[][] = [];
  let row: string[] = [];
  let cell = '';
  let state: 'start' | 'plain' | 'quoted' | 'closed' = 'start';
  const endCell = () => {
    row.push(cell);
    cell = '';
    state = 'start';
  };
  const endRow = () => {
    endCell();
    rows.push(row);
    row = [];
  };
  for (const character of text.replaceAll('\r\n', '\n').replaceAll('\r', '\n')) {
    if (state === 'quoted') {
      if (character === '"') state = 'closed';
      else cell += character;
    } else if (state === 'closed' && character === '"') {
      cell += '"';
      state = 'quoted';
    } else if (character === delimiter) endCell();
    else if (character === '\n') endRow();
    else if (state === 'closed') return undefined;
    else if (state === 'start' && character === '"') state = 'quoted';
    else {
      cell += character;
      state = 'plain';
    }
  }
  if ((state as string) === 'quoted') return undefined;
  if (row.length > 0 || cell !== '' || (state as string) !== 'start') endRow();
  return rows;
}
