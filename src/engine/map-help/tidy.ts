/** What could be tidied on a map: links that say nothing new, concepts that hold too much, names that nearly meet. */
import { editDistance } from '../../model/nearest-names';
import { foldName } from '../../model/fold-name';
import { findReach, type Neighbours } from '../graph/reach';

export interface ImpliedLink {
  readonly from: string;
  readonly to: string;
}

/**
 * Links between two concepts that are joined by a longer way as well (not in the
 * transitive reduction: Aho, Garey and Ullman 1972, SIAM Journal on Computing 1,
 * pp. 131-137).
 *
 * @example
 * findImpliedLinks(new Map([['a', ['b', 'c']], ['b', ['c']], ['c', []]])); // [{ from: 'a', to: 'c' }]
 */
export function findImpliedLinks(below: Neighbours): readonly ImpliedLink[] {
  const reach = new Map<string, ReadonlySet<string>>();
  const reachOf = (id: string) => {
    let found = reach.get(id);
    if (!found) reach.set(id, (found = new Set(findReach(below, id))));
    return found;
  };
  return [...below].flatMap(([from, list]) =>
    list
      .filter((to) => list.some((other) => other !== to && reachOf(other).has(to)))
      .map((to) => ({ from, to })),
  );
}

/** A concept that explains everything explains nothing. */
export interface BroadConcept {
  readonly id: string;
  /** Share of all other concepts that rest on it, by whatever way. */
  readonly share: number;
  /** Those directly on it. */
  readonly direct: number;
}

/** Resting under more than this share of the map, a concept tells little apart. */
const broadShare = 0.25;
/** Below this many concepts any share is large. */
const leastConcepts = 20;

export function findBroadConcepts(
  above: Neighbours,
  ids: readonly string[],
): readonly BroadConcept[] {
  if (ids.length < leastConcepts) return [];
  return ids
    .map((id) => ({
      id,
      share: findReach(above, id).length / (ids.length - 1),
      direct: above.get(id)?.length ?? 0,
    }))
    .filter(({ share }) => share > broadShare)
    .sort((a, b) => b.share - a.share);
}

export interface NamedConcept {
  readonly id: string;
  readonly names: readonly string[];
}

export interface NearNames {
  readonly one: string;
  readonly other: string;
  readonly nameOfOne: string;
  readonly nameOfOther: string;
  /** True: folded, the two are the same. */
  readonly same: boolean;
}

/** Names shorter than this differ by a letter too often ("ileum", "ilium"). */
const leastLength = 8;

/**
 * Pairs of concepts with the same folded name, or names a letter apart.
 *
 * Two names a letter apart become the same when a letter is left out of one or of both
 * (Mor and Fraenkel 1982, "A hash code method for detecting and correcting spelling
 * errors", Communications of the ACM 25, pp. 935-938). So only names that share such a
 * shortened form are compared: the work grows with the letters, not with pairs of names.
 */
export function findNearNames(concepts: readonly NamedConcept[]): readonly NearNames[] {
  const groups = new Map<string, { id: string; name: string; folded: string }[]>();
  for (const { id, names } of concepts) {
    for (const name of names) {
      const folded = foldName(name);
      if (folded === '') continue;
      const entry = { id, name, folded };
      const keys = new Set([folded]);
      if (folded.length >= leastLength) {
        for (let k = 0; k < folded.length; k++) keys.add(folded.slice(0, k) + folded.slice(k + 1));
      }
      for (const key of keys) {
        const group = groups.get(key);
        if (group) group.push(entry);
        else groups.set(key, [entry]);
      }
    }
  }
  const found = new Map<string, NearNames>();
  for (const group of groups.values()) {
    for (let i = 0; i < group.length; i++) {
      for (let k = i + 1; k < group.length; k++) {
        const [a, b] = [group[i]!, group[k]!];
        if (a.id === b.id || Math.abs(a.folded.length - b.folded.length) > 1) continue;
        const same = a.folded === b.folded;
        const digits = (text: string) => text.replace(/\D/g, '');
        // "Type 1" and "Type 2" are a letter apart and quite different things.
        if (!same && digits(a.folded) !== digits(b.folded)) continue;
        if (
          !same &&
          (Math.min(a.folded.length, b.folded.length) < leastLength ||
            editDistance(a.folded, b.folded) > 1)
        )
          continue;
        const [one, other] = a.id < b.id ? [a, b] : [b, a];
        const key = `${one.id} ${other.id}`;
        if (found.get(key)?.same) continue;
        found.set(key, {
          one: one.id,
          other: other.id,
          nameOfOne: one.name,
          nameOfOther: other.name,
          same,
        });
      }
    }
  }
  return [...found.values()].sort(
    (a, b) => Number(b.same) - Number(a.same) || a.nameOfOne.localeCompare(b.nameOfOne),
  );
}
