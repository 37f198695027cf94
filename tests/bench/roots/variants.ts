/** What could break a ranking: the base candidates, and one change at a time. */
import type { Logging } from './generator/log';
import { baseRecipe, type Recipe } from './generator/recipe';

export interface Variant {
  readonly name: string;
  readonly title: string;
  readonly recipe: Recipe;
  readonly logging: Logging;
  /** Items answered, unless the command line says otherwise. */
  readonly sizes: readonly number[];
}

const allSizes = [400, 1_600, 4_800];
const middleSize = [1_600];

function variant(
  name: string,
  title: string,
  change: Partial<Recipe>,
  sizes: readonly number[] = middleSize,
  logging: Logging = 'itemised',
): Variant {
  return { name, title, recipe: { ...baseRecipe, ...change }, logging, sizes };
}

const { labels, conceptsByLevel, deepGapCount, surfaceGapCount } = baseRecipe;

export const variants: readonly Variant[] = [
  variant('base', 'every item logged', {}, allSizes),
  variant('misses-only', 'only misses logged, totals by block', {}, allSizes, 'misses-only'),
  variant(
    'misses-by-system',
    'only misses logged, totals by block and system',
    {},
    middleSize,
    'misses-only-by-system',
  ),
  variant('lazy-labels', 'half of the causes named by topic', {
    // The other half keep the base's proportion of right to random, 60 to 15.
    labels: { ...labels, right: 0.4, topic: 0.5, random: 0.1 },
  }),
  variant('no-labels', 'no cause named at all', { labels: { ...labels, none: 1 } }),
  variant('wrong-topics', '30 % of items under a wrong topic', { wrongTopicShare: 0.3 }),
  variant('missing-links', '30 % of rests-on links not in the map', { missingLinkShare: 0.3 }),
  variant('mild-gaps', 'gaps that fail in 20 to 50 %, sound concepts in 2 to 8 %', {
    gapFailure: [0.2, 0.5],
    soundFailure: [0.02, 0.08],
  }),
  variant(
    'large-map',
    'a map ten times larger, with ten times the gaps',
    {
      conceptsByLevel: conceptsByLevel.map((count) => count * 10),
      deepGapCount: deepGapCount * 10,
      surfaceGapCount: surfaceGapCount * 10,
    },
    [1_600, 4_800],
  ),
  variant('healed', 'half of the gaps heal halfway, nothing read', { healedShare: 0.5 }),
  variant('healed-read', 'half of the gaps heal halfway, each by a reading', {
    healedShare: 0.5,
    readingsLogged: true,
  }),
  variant(
    'no-gap',
    'a candidate with no gap',
    { deepGapCount: 0, surfaceGapCount: 0 },
    [400, 1_600],
  ),
];
