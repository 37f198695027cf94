/** What is known of the topics of a block's items, right ones counted: the ranking's exposure. */
import type { Block, Item } from '../../model/log';
import { texts } from './texts';

export interface Exposure {
  /** Items in the block. */
  readonly items: number;
  /** Items whose topic is known. */
  readonly byTopic: number;
  /** Further items of which the organ system is known. */
  readonly bySystem: number;
}

/**
 * The exposure of a block. Items without a record were right and are known only
 * by the block's system, or by its counts of right items for each system.
 *
 * @param items of the block
 */
export function exposureOf(block: Block, items: readonly Item[]): Exposure {
  const total = Math.max(block.itemCount, items.length);
  const byTopic = items.filter(({ topics }) => topics.length > 0).length;
  const bare = items.filter(({ topics }) => topics.length === 0);
  if (block.system !== undefined) return { items: total, byTopic, bySystem: total - byTopic };
  const unwritten = total - items.length;
  const bySystem = bare.filter(({ system }) => system !== undefined).length;
  return { items: total, byTopic, bySystem: bySystem + Math.min(unwritten, countedRight(block)) };
}

/** Right items that the block's counts name by system. */
export function countedRight(block: Block): number {
  return (block.rightBySystem ?? []).reduce((sum, { count }) => sum + count, 0);
}

/** What the exposure gains the ranking, in a sentence. */
export function exposureText({ items, byTopic, bySystem }: Exposure): string {
  const known = byTopic + bySystem;
  const parts = [
    byTopic > 0 && texts.exposure.byTopic(byTopic),
    bySystem > 0 && texts.exposure.byOrganSystemOnly(bySystem),
  ].filter((part) => part !== false);
  const how = parts.length > 0 ? `: ${parts.join(', ')}` : '';
  return texts.exposure.exposureForOfItems(known, items, how);
}
