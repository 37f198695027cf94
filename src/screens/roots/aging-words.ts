/** How fast evidence ages, in plain words. */
import type { HalfLifeChoice } from '../../state/roots.svelte';

/** A sentence on the half-life and why it is what it is. */
export function agingWords({ kind, halfLifeDays }: HalfLifeChoice): string {
  const pace =
    halfLifeDays === Infinity
      ? 'Old evidence counts as much as new'
      : `Evidence loses half its weight in ${halfLifeDays} days`;
  switch (kind) {
    case 'best':
      return `${pace}: of five ways to let it age, this one has foretold your own results best.`;
    case 'close':
      return `${pace}: no other pace has foretold your own results clearly better.`;
    case 'few-items':
      return `${pace} until there are 400 items to choose by.`;
    case 'misses-only':
      return `${pace}; with misses alone there is nothing to choose by.`;
  }
}
