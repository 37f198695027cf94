import { describe, expect, it } from 'vitest';
import { compareAll, type TrendBlock } from '../../../../src/engine';
import {
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
