/** How fast evidence ages, in plain words. */
import type { HalfLifeChoice } from '../../state/roots.svelte';
import { texts } from './texts';

/** A sentence on the half-life and why it is what it is. */
export function agingWords({ kind, halfLifeDays }: HalfLifeChoice): string {
  const pace =
    halfLifeDays === Infinity
      ? texts.agingWords.oldEvidenceCountsAsMuch
      : texts.agingWords.evidenceLosesHalfItsWeight(halfLifeDays);
  switch (kind) {
    case 'best':
      return texts.agingWords.ofFiveWaysToLet(pace);
    case 'close':
      return texts.agingWords.noOtherPaceHasForetold(pace);
    case 'few-items':
      return texts.agingWords.untilThereAre400Items(pace);
    case 'misses-only':
      return texts.agingWords.withMissesAlone(pace);
  }
}
