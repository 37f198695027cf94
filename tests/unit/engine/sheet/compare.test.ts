import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { compareSheet, fittingMatch } from '../../../../src/engine/sheet/compare';
import { sheetWords } from '../../../../src/engine/sheet/sheet-words';
import { wordDistance } from '../../../../src/engine/sheet/word-distance';

const shares = (lines: { id: string; text: string; kind?: 'list' | 'table' }[], typed: string) =>
  compareSheet(lines, typed).lines.map(({ share }) => share);

describe('wordDistance', () => {
  it('agrees with known distances', () => {
    // kitten/sitting: Levenshtein's stock example; ca/abc is 3 where no place is edited twice.
    expect(wordDistance('kitten', 'sitting')).toBe(3);
    expect(wordDistance('ca', 'abc')).toBe(3);
    expect(wordDistance('recieve', 'receive')).toBe(1);
    expect(wordDistance('', 'abc')).toBe(3);
  });

  it('is a distance between words of any letters: symmetric, 0 only for the same', () => {
    fc.assert(
      fc.property(fc.string({ maxLength: 8 }), fc.string({ maxLength: 8 }), (a, b) => {
        expect(wordDistance(a, b)).toBe(wordDistance(b, a));
        expect(wordDistance(a, b) === 0).toBe(a === b);
      }),
      { seed: 5 },
    );
  });
});

describe('sheetWords', () => {
  it('reads TeX, Unicode and plain typing alike', () => {
    const plain = sheetWords('CL = V * ke / F');
    expect(sheetWords('$\\mathrm{CL} = V \\cdot k_e / F$')).toEqual(plain);
    expect(sheetWords('CL = V × kₑ ÷ F')).toEqual(plain);
  });

  it('meets British and American spelling, Greek letters and their names', () => {
    expect(sheetWords('Oedema, α-block, anaemia')).toEqual(sheetWords('edema alpha block anemia'));
  });

  it('keeps a minus in a formula and drops a hyphen between words', () => {
    expect(sheetWords('Na − Cl = 3')).toEqual(['na', '-', 'cl', '=', '3']);
    expect(sheetWords('T-cell')).toEqual(['t', 'cell']);
  });
});

describe('compareSheet', () => {
  const lines = [
    { id: 'gap', text: 'Anion gap = Na - (Cl + HCO3), normal 8 to 12' },
    { id: 'winter', text: 'Expected pCO2 = 1.5 × HCO3 + 8 ± 2' },
    { id: 'nerves', text: 'Cranial nerves: olfactory, optic, oculomotor', kind: 'list' as const },
  ];

  it('finds every line whatever their order', () => {
    expect(shares(lines, lines.map(({ text }) => text).join('\n'))).toEqual([1, 1, 1]);
    expect(
      shares(
        lines,
        lines
          .map(({ text }) => text)
          .reverse()
          .join(' '),
      ),
    ).toEqual([1, 1, 1]);
  });

  it('forgives spelling of words, never of numbers', () => {
    expect(shares([lines[0]!], 'anoin gap = Na - (Cl + HCO3), nromal 8 to 12')).toEqual([1]);
    const [gap] = compareSheet([lines[0]!], 'anion gap = Na - (Cl + HCO3) normal 8 to 21').lines;
    expect(gap?.missing).toEqual(['12']);
    // Eleven words count: the two small ones and the brackets do not.
    expect(gap?.share).toBeCloseTo(1 - 1 / 11, 12);
  });

  it('takes no long number for another that is nearly it', () => {
    const [volume] = compareSheet(
      [{ id: 'v', text: 'Plasma volume 3500 mL' }],
      'plasma volume 3600 mL',
    ).lines;
    expect(volume?.missing).toEqual(['3500']);
  });

  it('forgives the order inside a list', () => {
    expect(shares([lines[2]!], 'optic\noculomoter\ncranial nerves: olfactory')).toEqual([1]);
  });

  it('gives one typed line to one of two equal lines, not to both', () => {
    const twice = ['a', 'b'].map((id) => ({ id, text: 'renal plasma flow' }));
    expect(shares(twice, 'renal plasma flow')).toEqual([1, 0]);
  });

  it('keeps a whole match from words another row would take in part', () => {
    const pair = [
      { id: 'part', text: 'plasma flow rate constant' },
      { id: 'whole', text: 'renal plasma flow' },
    ];
    expect(shares(pair, 'renal plasma flow')).toEqual([0, 1]);
  });

  it('says what is missing and what belongs nowhere', () => {
    const { lines: found, beside } = compareSheet(
      [{ id: 'a', text: 'one two three' }],
      'one three giraffe',
    );
    expect(found[0]?.missing).toEqual(['two']);
    expect(beside).toEqual(['giraffe']);
  });

  it('gives nothing for an empty page and all for a line without words', () => {
    expect(
      shares(
        [
          { id: 'a', text: 'one two' },
          { id: 'b', text: '…' },
        ],
        '',
      ),
    ).toEqual([0, 1]);
  });

  it('loses as much as was left out, for any line and any loss', () => {
    const word = fc.stringMatching(/^[a-z]{5,9}$/);
    fc.assert(
      fc.property(
        fc.uniqueArray(word, { minLength: 4, maxLength: 8 }),
        fc.nat(1),
        (words, lost) => {
          // Unlike words only: two that are nearly alike could stand for each other.
          fc.pre(words.every((a, i) => words.every((b, j) => i === j || wordDistance(a, b) > 3)));
          fc.pre(words.every((each) => sheetWords(each)[0] === each));
          const [found] = compareSheet(
            [{ id: 'a', text: words.join(' ') }],
            words.slice(lost).join(' '),
          ).lines;
          expect(found?.share).toBeCloseTo((words.length - lost) / words.length, 12);
        },
      ),
      { seed: 8, numRuns: 60 },
    );
  });
});

describe('fittingMatch', () => {
  it('meets as many words, at as few passed over, as the best of all ways', () => {
    const letter = fc.constantFrom('a', 'b', 'c');
    const same = (one: string, other: string) => one === other;
    /** Every way to meet words in order, tried one after another. */
    const best = (words: string[], text: string[], from: number, last: number): number => {
      if (words.length === 0) return 0;
      let most = best(words.slice(1), text, from, last);
      for (let at = from; at < text.length; at++) {
        if (words[0] !== text[at]) continue;
        const passed = last < 0 ? 0 : at - last - 1;
        most = Math.max(most, 1 - 0.05 * passed + best(words.slice(1), text, at + 1, at));
      }
      return most;
    };
    fc.assert(
      fc.property(
        fc.array(letter, { minLength: 1, maxLength: 5 }),
        fc.array(letter, { maxLength: 8 }),
        (words, text) => {
          const match = fittingMatch(
            0,
            words,
            text,
            text.map(() => false),
            same,
          );
          expect(match.score).toBeCloseTo(best(words, text, 0, -1), 9);
          const met = match.met.filter((at) => at >= 0);
          expect(met).toEqual([...met].sort((a, b) => a - b));
          match.met.forEach((at, i) => at < 0 || expect(text[at]).toBe(words[i]));
        },
      ),
      { seed: 9, numRuns: 200 },
    );
  });
});
