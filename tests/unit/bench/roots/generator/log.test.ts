import { describe, expect, it } from 'vitest';
import { traceRoots } from '../../../../../src/engine/index';
import { drawCandidate } from '../../../../bench/roots/generator/candidate';
import { caseOf } from '../../../../bench/roots/generator/log';
import { baseRecipe } from '../../../../bench/roots/generator/recipe';
import { drawItems, slipCause } from '../../../../bench/roots/generator/sitting';
import { truthOf } from '../../../../bench/roots/generator/truth';

const candidate = drawCandidate(baseRecipe, 21);

describe('the simulated items', () => {
  const items = drawItems(candidate, 4_000);
  const misses = items.filter((item) => item.missed);

  it('of a shorter run are the beginning of a longer one', () => {
    expect(drawItems(candidate, 300)).toEqual(items.slice(0, 300));
  });

  it('have a true cause exactly where they were missed', () => {
    for (const item of items) {
      expect(item.trueCause !== undefined).toBe(item.missed);
      if (!item.missed) expect(item.namedCause).toBeUndefined();
    }
    expect(misses.some((item) => item.trueCause === slipCause)).toBe(true);
  });

  it('are missed as often as the truth of single concepts and slips says in sum', () => {
    // Mending one gap alone: misses fall by its `avoidable`, with everything else drawn the same.
    const { avoidable, isGap } = truthOf(candidate);
    const worst = avoidable.indexOf(Math.max(...avoidable));
    expect(isGap[worst]).toBe(true);
    const mended = {
      ...candidate,
      failureBefore: candidate.failureBefore.with(worst, candidate.soundFailure[worst]!),
      failureAfter: candidate.failureAfter.with(worst, candidate.soundFailure[worst]!),
    };
    const count = 40_000;
    const missShare = (who: typeof candidate) =>
      (100 * drawItems(who, count).filter((item) => item.missed).length) / count;
    // Two binomial shares of about 30 %: standard error of the difference .32 in 100.
    expect(Math.abs(missShare(candidate) - missShare(mended) - avoidable[worst]!)).toBeLessThan(1);
    expect(avoidable[worst]).toBeGreaterThan(1);
  });

  it('are labelled in the shares of the recipe', () => {
    const many = drawItems(candidate, 20_000).filter((item) => item.missed);
    const caused = many.filter((item) => item.trueCause !== slipCause);
    // A cause below the surface cannot be named right by naming the topic.
    const deep = caused.filter((item) => item.trueCause! >= candidate.map.surfaceCount);
    const share = (test: (item: (typeof many)[number]) => boolean) =>
      deep.filter(test).length / deep.length;
    const none = share((item) => item.namedCause === undefined);
    const right = share((item) => item.namedCause === item.trueCause);
    const topic = share((item) => item.loggedTopics.includes(item.namedCause!));
    // About 2,000 misses: standard errors at most .011; strays fall on either now and then.
    expect(deep.length).toBeGreaterThan(1_500);
    expect(Math.abs(none - 0.15)).toBeLessThan(0.04);
    expect(Math.abs(right - 0.85 * 0.6)).toBeLessThan(0.045);
    expect(Math.abs(topic - 0.85 * 0.25)).toBeLessThan(0.045);
  });

  it('put a slip down to a topic where another miss would be named rightly', () => {
    const slips = drawItems(candidate, 20_000).filter((item) => item.trueCause === slipCause);
    const topic = slips.filter((item) => item.loggedTopics.includes(item.namedCause!));
    expect(Math.abs(topic.length / slips.length - 0.85 * 0.85)).toBeLessThan(0.05);
  });

  it('stop being missed for a healed gap at the middle, and not before', () => {
    const healing = drawCandidate({ ...baseRecipe, healedShare: 0.5 }, 21);
    const causes = drawItems(healing, 8_000).map((item) => item.trueCause ?? slipCause);
    const ofHealed = (from: number, to: number) =>
      causes.slice(from, to).filter((cause) => cause !== slipCause && healing.isHealed[cause])
        .length;
    const [early, late, after] = [
      ofHealed(0, 2_000),
      ofHealed(2_000, 4_000),
      ofHealed(4_000, 6_000),
    ];
    // Before: the same rate in either quarter (Poisson). After: sound, 1 to 3 %.
    expect(early).toBeGreaterThan(40);
    expect(Math.abs(early - late)).toBeLessThan(4 * Math.sqrt(early + late));
    expect(after).toBeLessThan(early / 8);
  });

  it('are logged under a wrong topic in the share of the recipe', () => {
    const muddled = drawCandidate({ ...baseRecipe, wrongTopicShare: 0.3 }, 21);
    const logged = drawItems(muddled, 4_000);
    const wrong = logged.filter((item) => !item.topics.includes(item.loggedTopics[0]!));
    // Standard error .007; one in 180 strays hits its own topic.
    expect(Math.abs(wrong.length / 4_000 - 0.3)).toBeLessThan(0.03);
    expect(logged.map((item) => item.missed)).toEqual(items.map((item) => item.missed));
  });
});

describe('the log of a case', () => {
  it('holds every item, or only the misses with all others in totals', () => {
    const full = caseOf(candidate, 410, 'itemised');
    const partly = caseOf(candidate, 410, 'misses-only');
    const bySystem = caseOf(candidate, 410, 'misses-only-by-system');
    expect(full.log.items.length).toBe(410);
    expect(full.log.unitemised).toEqual([]);
    for (const { log, missCount } of [partly, bySystem]) {
      expect(log.items).toEqual(full.log.items.filter((item) => item.missed));
      expect(log.items.length).toBe(missCount);
      const right = log.unitemised.reduce((sum, total) => sum + total.right, 0);
      expect(right + missCount).toBe(410);
    }
    expect(partly.log.unitemised.length).toBe(11);
    expect(partly.log.unitemised.every((total) => !('system' in total))).toBe(true);
    expect(bySystem.log.unitemised.every((total) => total.system !== undefined)).toBe(true);
  });

  it('counts true causes of misses for the ceiling, slips left out', () => {
    const { trueCauseCounts, missCount } = caseOf(candidate, 800, 'itemised');
    const slips = drawItems(candidate, 800).filter((item) => item.trueCause === slipCause).length;
    expect(trueCauseCounts.reduce((a, b) => a + b, 0)).toBe(missCount - slips);
  });

  it('forgets in the ceiling what a healed gap cost before it healed, and says when it was read', () => {
    const recipe = { ...baseRecipe, healedShare: 0.5, readingsLogged: true };
    const healing = drawCandidate(recipe, 21);
    const { trueCauseCounts, log } = caseOf(healing, 1_200, 'itemised');
    const items = drawItems(healing, 1_200);
    const expected = new Float64Array(trueCauseCounts.length);
    items.forEach(({ trueCause }, index) => {
      if (trueCause === undefined || trueCause === slipCause) return;
      if (index >= 600 || !healing.isHealed[trueCause]) expected[trueCause]!++;
    });
    expect(trueCauseCounts).toEqual(expected);
    expect(log.readings.length).toBe(1);
    expect(log.readings[0]!.concepts.length).toBe(11);
    expect(log.readings[0]!.at).toBe(log.items[600]!.at);
  });

  it('leaves links out of the map that the methods see, not out of what happened', () => {
    const blurred = drawCandidate({ ...baseRecipe, missingLinkShare: 0.3 }, 21);
    const links = (of: typeof candidate) =>
      caseOf(of, 40, 'itemised').log.concepts.reduce((sum, { restsOn }) => sum + restsOn.length, 0);
    const all = candidate.map.restsOn.flat().length;
    expect(links(candidate)).toBe(all);
    // Binomial(about 460, .3): standard deviation .02 of them.
    expect(Math.abs(links(blurred) / all - 0.7)).toBeLessThan(0.09);
    expect(drawItems(blurred, 200)).toEqual(drawItems(candidate, 200));
  });

  it('is a log that the engine takes', () => {
    const { log } = caseOf(candidate, 200, 'misses-only-by-system');
    expect(traceRoots(log).roots.length).toBe(260);
  });
});
