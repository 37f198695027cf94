/**
 * Concepts that are missed together far more than chance would have it, though the
 * map does not link them.
 *
 * Each miss names some concepts, as its topics or causes. If two concepts are
 * named in `a` and `b` of `n` misses and fell together by chance, the number in
 * which both are named would be hypergeometric; its upper tail is Fisher's exact
 * test (Fisher 1935, "The logic of inductive inference", Journal of the Royal
 * Statistical Society 98, pp. 39-82).
 */
import { findReach, type Neighbours } from '../graph/reach';
import { logGamma } from '../numeric/special';
import { adjustForMany } from './false-discovery';

export interface NamedMiss {
  readonly topics: readonly string[];
  readonly causes: readonly string[];
}

export interface MissingLink {
  /** The concept that would rest on the other: more often the topic where the other is the cause. */
  readonly from: string;
  readonly to: string;
  /** Misses that name both. */
  readonly together: number;
  readonly expected: number;
  readonly missesOfFrom: number;
  readonly missesOfTo: number;
  /** p-value adjusted for all pairs (Benjamini-Hochberg). */
  readonly adjusted: number;
}

/** Expected share of chance among the links proposed. */
const falseShare = 0.05;
/** Pairs seen together fewer times than this are no evidence, whatever the test says. */
const leastTogether = 3;

/**
 * Chance of drawing at least `both` marked ones when `drawn` of `all` are drawn and
 * `marked` of them are marked.
 *
 * @example
 * chanceOfAtLeast(2, 2, 2, 4); // 1/6
 */
export function chanceOfAtLeast(both: number, marked: number, drawn: number, all: number): number {
  const logChoose = (n: number, k: number) =>
    logGamma(n + 1) - logGamma(k + 1) - logGamma(n - k + 1);
  const whole = logChoose(all, drawn);
  let sum = 0;
  const least = Math.max(both, marked + drawn - all, 0);
  for (let k = least; k <= Math.min(marked, drawn); k++) {
    sum += Math.exp(logChoose(marked, k) + logChoose(all - marked, drawn - k) - whole);
  }
  return Math.min(1, sum);
}

/**
 * Links the log supports and the map lacks, surest first.
 *
 * All pairs of concepts that were ever missed count as tests. Pairs that are
 * joined by any way of links already are left out afterwards.
 *
 * @param below for each concept, those it rests on
 */
export function findMissingLinks(
  misses: readonly NamedMiss[],
  below: Neighbours,
): readonly MissingLink[] {
  const count = new Map<string, number>();
  const pairs = new Map<string, { one: string; other: string; both: number; lean: number }>();
  let named = 0;
  for (const { topics, causes } of misses) {
    const ids = [...new Set([...topics, ...causes])].filter((id) => below.has(id)).sort();
    if (ids.length === 0) continue;
    named += 1;
    for (const id of ids) count.set(id, (count.get(id) ?? 0) + 1);
    for (let i = 0; i < ids.length; i++) {
      for (let k = i + 1; k < ids.length; k++) {
        const [one, other] = [ids[i]!, ids[k]!];
        const key = `${one} ${other}`;
        const pair = pairs.get(key) ?? { one, other, both: 0, lean: 0 };
        pair.both += 1;
        // Above zero: the other is the cause of misses about the one.
        if (causes.includes(other) && !causes.includes(one)) pair.lean += 1;
        if (causes.includes(one) && !causes.includes(other)) pair.lean -= 1;
        pairs.set(key, pair);
      }
    }
  }
  const list = [...pairs.values()];
  const pValues = list.map(({ one, other, both }) =>
    chanceOfAtLeast(both, count.get(one)!, count.get(other)!, named),
  );
  const adjusted = adjustForMany(pValues, (count.size * (count.size - 1)) / 2);
  const reach = new Map<string, ReadonlySet<string>>();
  const reaches = (from: string, to: string) => {
    if (!reach.has(from)) reach.set(from, new Set(findReach(below, from)));
    return reach.get(from)!.has(to);
  };
  return list
    .flatMap(({ one, other, both, lean }, k): MissingLink[] => {
      if (both < leastTogether || adjusted[k]! > falseShare) return [];
      if (reaches(one, other) || reaches(other, one)) return [];
      const [from, to] = lean >= 0 ? [one, other] : [other, one];
      return [
        {
          from,
          to,
          together: both,
          expected: (count.get(one)! * count.get(other)!) / named,
          missesOfFrom: count.get(from)!,
          missesOfTo: count.get(to)!,
          adjusted: adjusted[k]!,
        },
      ];
    })
    .sort(
      (a, b) => a.adjusted - b.adjusted || b.together - a.together || a.from.localeCompare(b.from),
    );
}
