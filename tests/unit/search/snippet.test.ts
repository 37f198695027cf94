import { describe, expect, it } from 'vitest';
import { snippetOf } from '../../../src/search';

const joined = (text: string, terms: readonly string[], length: number) =>
  snippetOf(text, new Set(terms), length)
    .parts.map((part) => part.text)
    .join('');

describe('a snippet', () => {
  it('marks words as they were written', () => {
    const { parts } = snippetOf('No Oedema of β-cells.', new Set(['edema', 'cell']), 100);
    expect(parts.filter((part) => part.marked).map((part) => part.text)).toEqual([
      'Oedema',
      'cells',
    ]);
    expect(parts.map((part) => part.text).join('')).toBe('No Oedema of β-cells.');
  });

  it('is a stretch of the text, letter for letter, round the words found', () => {
    const text = `${'before it '.repeat(60)}the <b>bicarbonate</b> ratio\n${'after it '.repeat(60)}`;
    const shown = joined(text, ['bicarbonate', 'ratio'], 120);
    expect(text).toContain(shown);
    expect(shown).toContain('<b>bicarbonate</b> ratio');
    expect(shown.length).toBeLessThan(200);
  });

  it('begins at the beginning when nothing is marked', () => {
    expect(joined('plain text', [], 100)).toBe('plain text');
    expect(snippetOf('', new Set(['x']), 10).parts).toEqual([]);
  });
});
