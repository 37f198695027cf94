import { describe, expect, it } from 'vitest';
import { fitDino } from '../../../../bench/roots/peers/dino';
import { drawBelow, uniformStream } from '../../../../bench/roots/generator/random';
import { classPosterior, skillClasses } from '../../../../oracles/diagnosis/gate';

describe('DINO for one candidate', () => {
  it('finds the same gap chances as Bayes over all classes, rates held still', () => {
    const uniform = uniformStream(5, 'small networks');
    for (let network = 0; network < 5; network++) {
      const conceptCount = 4;
      const items = Array.from({ length: 7 }, () => ({
        needs: [0, 1, 2, 3].filter(() => uniform() < 0.5),
        missed: drawBelow(uniform, 2) === 1,
      })).map((item) => (item.needs.length > 0 ? item : { ...item, needs: [0] }));
      const fixed = { guess: 0.15, slip: 0.3, gapShare: 0.25 };

      // In DINO's own words: the disorder is the gap, and the answer that shows it is the miss.
      const classes = skillClasses(conceptCount);
      const { posterior } = classPosterior(
        'any',
        items.map((item) => item.missed),
        items.map((item) => [0, 1, 2, 3].map((concept) => item.needs.includes(concept))),
        items.map(() => fixed),
        classes.map((gaps) => gaps.reduce((share, gap) => share * (gap ? 0.25 : 0.75), 1)),
      );
      const fitted = fitDino(items, conceptCount, { fixed, sweeps: 20_000, warmUp: 100, seed: 3 });
      for (let concept = 0; concept < conceptCount; concept++) {
        const exact = posterior.reduce((sum, p, c) => sum + (classes[c]![concept] ? p : 0), 0);
        // 20,000 sweeps that stick a little: a few times sqrt(.25 / 20,000) = .0035.
        expect(Math.abs(fitted.gapChances[concept]! - exact)).toBeLessThan(0.02);
      }
    }
  });

  it('learns the rates, and ranks the gap that spoils most items first', () => {
    const uniform = uniformStream(11, 'many items');
    const items = Array.from({ length: 3_000 }, () => {
      const concept = drawBelow(uniform, 15);
      const chance = concept === 4 || concept === 9 ? 0.8 : 0.1;
      return { needs: [concept, 15], missed: uniform() < chance };
    });
    const { rates, gapChances, avoidable } = fitDino(items, 16);
    // 400 items at a gap: standard error .02; 2,600 without: .006.
    expect(Math.abs(rates.slip - 0.2)).toBeLessThan(0.07);
    expect(Math.abs(rates.guess - 0.1)).toBeLessThan(0.025);
    expect(Array.from(gapChances, (chance) => chance > 0.5)).toEqual(
      Array.from({ length: 16 }, (_, concept) => concept === 4 || concept === 9),
    );
    // Mending spares (1 - s - g) of the items at that gap: about 200 * 0.7.
    expect(Math.abs(avoidable[4]! - 140)).toBeLessThan(30);
  });
});
