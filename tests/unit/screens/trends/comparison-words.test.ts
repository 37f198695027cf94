import { describe, expect, it } from 'vitest';
import { compareAll, type TrendBlock } from '../../../../src/engine';
import {
  changedSentences,
  comparisonNames,
  comparisonSentences,
  luckText,
  pointsText,
} from '../../../../src/screens/trends/comparison-words';

const blocks = (count: number, right: number, timed: boolean): TrendBlock[] =>
  Array.from({ length: count }, (_, i) => ({ items: 40, right: right + (i % 3) - 1, timed }));
const words = (all: TrendBlock[]) =>
  comparisonSentences(compareAll(all, 90).rates.find(({ id }) => id === 'timed')!).join(' ');

describe('the sentences of a comparison', () => {
  it('give both shares, the difference with its interval, and how much could be luck', () => {
    const text = words([...blocks(20, 34, true), ...blocks(20, 24, false)]);
    expect(text).toMatch(
      /8\d% right in timed blocks \(20\), 6\d% in untimed blocks \(20\): \+\d+\.\d points, 95% interval \+\d+\.\d to \+\d+\.\d\./,
    );
    expect(text).toMatch(/less than once in a thousand times/);
    expect(text).toMatch(/The log cannot say why/);
  });

  it('ask for more blocks where these cannot tell, and warn of small sides', () => {
    const text = words([...blocks(5, 30, true), ...blocks(12, 29, false)]);
    expect(text).toMatch(/Not enough yet: about \d+ more blocks/);
    expect(text).toMatch(/rests on 5 blocks only/);
  });

  it('say what there is where nothing can be compared', () => {
    expect(words(blocks(7, 30, true))).toMatch(
      /^So far 7 timed blocks and 0 untimed blocks\. Not enough yet/,
    );
  });

  it('never claim a cause', () => {
    const every = Object.values(comparisonNames)
      .map((names) => Object.values(names).join(' '))
      .join(' ');
    const said = every + words([...blocks(20, 34, true), ...blocks(20, 24, false)]);
    expect(said).not.toMatch(
      /because|causes|makes you|leads to|improves|thanks to|due to|effect of/i,
    );
  });
});

describe('the sentences on changed answers', () => {
  const said = (count: number, toRight: number, fromRight: number) =>
    changedSentences(
      compareAll(
        Array.from({ length: count }, () => ({
          items: 40,
          right: 30,
          changed: { toRight, fromRight },
        })),
        90,
      ).changed,
    ).join(' ');

  it('say how many more are needed, where these are too few or cannot tell', () => {
    expect(said(2, 2, 1)).toMatch(
      /^So far 6 changes .* about 71 more changes, some 24 more blocks at your rate, to see/,
    );
    expect(said(6, 2, 1)).toMatch(/67% helped.* Not enough yet: about \d+ more changes/);
    expect(said(0, 0, 0)).toMatch(/So far 0 changes .* about 77 more changes to see/);
  });

  it('say what was found with how much could be luck, and claim nothing of the next one', () => {
    expect(said(20, 4, 0)).toMatch(/less than once in a thousand times.*cannot say/);
    expect(said(60, 1, 1)).toMatch(/changes enough that two helpful ones in three/);
  });
});

describe('numbers in words', () => {
  it('give points a sign, and nothing none', () => {
    expect([0.029, -0.169, 0.0001].map(pointsText)).toEqual(['+2.9', '−16.9', '0.0']);
  });

  it('tell how often luck does it', () => {
    expect(luckText(0.8)).toMatch(/often/);
    expect(luckText(0.125)).toMatch(/about once in 8 times/);
    expect(luckText(0.02)).toMatch(/only about once in 50 times/);
  });
});
