import { describe, expect, it } from 'vitest';
import {
  measuredSpeed,
  writingSeconds,
  writtenCharacters,
} from '../../../../src/engine/sheet/writing';

describe('writtenCharacters', () => {
  it('counts what the hand writes', () => {
    expect(writtenCharacters('  two  words\n')).toBe(9);
    expect(writtenCharacters('α→β')).toBe(3);
  });

  it('counts of TeX one for a command and none for braces', () => {
    // A bar, V, d, k, e: the fraction as it is drawn.
    expect(writtenCharacters('$\\frac{V_d}{k_e}$')).toBe(5);
    expect(writtenCharacters('$\\text{pH} = 7$')).toBe(4);
  });

  it('leaves a price or a lone dollar sign as it stands', () => {
    expect(writtenCharacters('5 $ each')).toBe(8);
  });
});

describe('writingSeconds', () => {
  it('follows the derived table: 15 minutes at 31 words a minute are 2,325 characters', () => {
    // C. M. Brown (1988), five characters a word.
    expect(writingSeconds('x'.repeat(2325), 31)).toBeCloseTo(900, 9);
    expect(() => writingSeconds('x', 0)).toThrow(/wordsPerMinute/);
  });
});

describe('measuredSpeed', () => {
  const paper = (at: number, characters: number, seconds: number) => ({
    at,
    manner: 'paper' as const,
    characters,
    seconds,
  });

  it('is unknown without a rehearsal on paper', () => {
    expect(
      measuredSpeed([{ at: 1, manner: 'typed', characters: 500, seconds: 100 }]),
    ).toBeUndefined();
    expect(measuredSpeed([paper(1, 0, 100)])).toBeUndefined();
  });

  it('is all words over all minutes of the latest five', () => {
    const old = paper(0, 9000, 60);
    const latest = [1, 2, 3, 4, 5].map((at) => paper(at, 100 * at, 60));
    expect(measuredSpeed([latest[2]!, old, ...latest.filter((_, i) => i !== 2)])).toBeCloseTo(
      1500 / 5 / 5,
      12,
    );
  });
});
