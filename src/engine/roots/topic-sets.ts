/** Collects the distinct sets of topics that items have, each with its row of weights. */
import type { Closures } from '../graph/closure';
import { ageSpans, type TopicSets } from './compiled';

/** A growing collection of topic sets; `finish` turns it into flat arrays. */
export interface TopicSetBuilder {
  /** The set of the first `count` topics (concept indices, any order, each once; at least one). */
  setOf(topics: Int32Array, count: number): number;
  setOfConcept(concept: number): number;
  /** Whether a set leans on a concept. */
  has(set: number, concept: number): boolean;
  readonly start: readonly number[];
  readonly concept: readonly number[];
  readonly weight: readonly number[];
  /** Per set, items in the mix, in the window now and before; the caller adds to them. */
  readonly mix: number[];
  readonly now: number[];
  readonly before: number[];
  /** Per set and span of age, items weighted for time. */
  readonly byAge: number[];
  finish(): TopicSets;
}

/**
 * A builder over the closures of the map. The weight of a concept in a set is the largest
 * over the set's topics, as the model's w.
 */
export function topicSetBuilder(closures: Closures): TopicSetBuilder {
  const conceptCount = closures.start.length - 1;
  const ofConcept = new Int32Array(conceptCount).fill(-1);
  // Two topics are keyed by one number, as text takes as long to make as all the rest.
  const ofPair = new Map<number, number>();
  const ofKey = new Map<string, number>();
  const start = [0];
  const concept: number[] = [];
  const weight: number[] = [];
  const mix: number[] = [];
  const now: number[] = [];
  const before: number[] = [];
  const byAge: number[] = [];
  const place = new Int32Array(conceptCount).fill(-1);

  const add = (topics: Iterable<number>): number => {
    const first = concept.length;
    for (const topic of topics) {
      for (let k = closures.start[topic]!; k < closures.start[topic + 1]!; k++) {
        const target = closures.concept[k]!;
        const value = closures.weight[k]!;
        const at = place[target]!;
        if (at < 0) {
          place[target] = concept.length;
          concept.push(target);
          weight.push(value);
        } else if (value > weight[at]!) weight[at] = value;
      }
    }
    for (let k = first; k < concept.length; k++) place[concept[k]!] = -1;
    start.push(concept.length);
    mix.push(0);
    now.push(0);
    before.push(0);
    for (let span = 0; span < ageSpans; span++) byAge.push(0);
    return mix.length - 1;
  };

  const setOfConcept = (topic: number): number => {
    let set = ofConcept[topic]!;
    if (set < 0) {
      set = add([topic]);
      ofConcept[topic] = set;
    }
    return set;
  };

  return {
    setOf(topics, count) {
      const first = topics[0]!;
      if (count === 1) return setOfConcept(first);
      if (count === 2) {
        const second = topics[1]!;
        const low = Math.min(first, second);
        const high = Math.max(first, second);
        const pair = low * conceptCount + high;
        let set = ofPair.get(pair);
        if (set === undefined) {
          set = add([low, high]);
          ofPair.set(pair, set);
        }
        return set;
      }
      const sorted = topics.slice(0, count).sort();
      const key = sorted.join();
      let set = ofKey.get(key);
      if (set === undefined) {
        set = add(sorted);
        ofKey.set(key, set);
      }
      return set;
    },
    setOfConcept,
    has(set, wanted) {
      for (let k = start[set]!; k < start[set + 1]!; k++) if (concept[k] === wanted) return true;
      return false;
    },
    start,
    concept,
    weight,
    mix,
    now,
    before,
    byAge,
    finish: () => ({
      count: mix.length,
      start: Int32Array.from(start),
      concept: Int32Array.from(concept),
      weight: Float64Array.from(weight),
      mix: Float64Array.from(mix),
      now: Float64Array.from(now),
      before: Float64Array.from(before),
      byAge: Float64Array.from(byAge),
      ofConcept,
    }),
  };
}
