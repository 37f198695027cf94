import { describe, expect, it } from 'vitest';
import {
  addressWith,
  filtersOf,
  partsOf,
  typedWith,
} from '../../../../src/screens/find/find-address';

describe('the address of a search', () => {
  it('reads filters, and passes over those it does not know', () => {
    const query = new URLSearchParams('kind=items&system=renal&from=1970-01-11&to=no&settled=no');
    expect(filtersOf(query)).toEqual({
      kinds: ['items'],
      system: 'renal',
      discipline: undefined,
      fromDay: 10,
      toDay: undefined,
      settled: false,
    });
    expect(filtersOf(new URLSearchParams('kind=cards')).kinds).toBeUndefined();
  });

  it('changes one thing and leaves the rest', () => {
    const query = new URLSearchParams('q=acid&kind=notes');
    expect(addressWith(query, 'kind', '')).toBe('/find?q=acid');
    expect(addressWith(query, 'system', 'renal')).toBe('/find?q=acid&kind=notes&system=renal');
    expect(addressWith(new URLSearchParams('q=a'), 'q', '')).toBe('/find');
  });
});

describe('the fields beside the find box', () => {
  it('show the phrases and exclusions that are typed, and write them so that they are read back', () => {
    const typed = 'shift "left shift" -fetal -"of blood"';
    expect(partsOf(typed)).toEqual({ phrase: 'left shift', without: 'fetal, of blood' });
    expect(typedWith(typed, partsOf(typed))).toBe(typed);
  });

  it('take out what is emptied and let no quote break the form', () => {
    expect(typedWith('a "b"', { phrase: '', without: '' })).toBe('a');
    const typed = typedWith('', { phrase: 'say "x" y', without: ' , one ,two three' });
    expect(partsOf(typed)).toEqual({ phrase: 'say x y', without: 'one, two three' });
  });
});
