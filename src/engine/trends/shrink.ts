/** Rates of many groups, each drawn towards the whole as far as its few items warrant. */
import { betaQuantile } from '../numeric/incomplete-beta';
import { fitBetaBinomial } from './beta-binomial';

export interface RateGroup {
  readonly id: string;
  readonly items: number;
  readonly right: number;
}

export interface ShrunkRate extends RateGroup {
  /** As counted; undefined without items. */
  readonly raw: number | undefined;
  readonly share: number;
  /** 90 % interval. */
  readonly interval: readonly [number, number];
}

export interface ShrunkRates {
  /** In the order given. */
  readonly rates: readonly ShrunkRate[];
  /** Where the groups are drawn to. */
  readonly whole: number;
  /** False: they differ no more than chance alone would make them. */
  readonly differ: boolean;
}

/**
 * Shares with a beta prior fitted to all groups (empirical Bayes; Gelman et al., Bayesian Data
 * Analysis, 3rd ed., section 5.1). Undefined where nothing, or all, was right: no spread can be
 * fitted. The interval takes the fitted prior as known, so it is a little narrow.
 */
export function shrinkRates(groups: readonly RateGroup[]): ShrunkRates | undefined {
  const items = groups.reduce((sum, group) => sum + group.items, 0);
  const right = groups.reduce((sum, group) => sum + group.right, 0);
  if (right === 0 || right === items) return undefined;
  const { a, b, converged } = fitBetaBinomial(
    groups.map((group) => ({ events: group.right, tries: group.items })),
  );
  const rates = groups.map((group) => {
    const [up, down] = [a + group.right, b + group.items - group.right];
    return {
      ...group,
      raw: group.items === 0 ? undefined : group.right / group.items,
      share: up / (up + down),
      interval: [betaQuantile(0.05, up, down), betaQuantile(0.95, up, down)] as const,
    };
  });
  return { rates, whole: a / (a + b), differ: converged };
}
