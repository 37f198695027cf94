/**
 * The exact 0/1 knapsack.
 *
 * Dynamic programme over undominated (weight, value) pairs: G. L. Nemhauser & Z. Ullmann (1969),
 * "Discrete dynamic programming and capital allocation", Management Science 15(9):494-505.
 */
import { requireFinite, requireNonNegative } from '../numeric/check';

export interface KnapsackThing {
  readonly weight: number;
  readonly value: number;
}

export interface KnapsackChoice {
  /** shape (n,): whether each thing is taken, in the order given */
  readonly taken: readonly boolean[];
  readonly weight: number;
  readonly value: number;
}

/** One undominated way to choose among the things seen so far. */
interface Choice {
  readonly weight: number;
  readonly value: number;
  /** The thing taken last, and the choice it was added to. */
  readonly thing: number;
  readonly before: Choice | undefined;
}

/**
 * The choice of greatest value whose weights fit the capacity; of several, the lightest.
 *
 * Time and memory grow with the number of things times the undominated choices: at most
 * capacity + 1 of them for whole weights, at most 2^n for any.
 *
 * @param things weights and values of at least 0
 * @param capacity at least 0
 * @throws {RangeError} for a negative number, NaN or an infinite value
 *
 * @example
 * solveKnapsack([{ weight: 2, value: 3 }, { weight: 3, value: 4 }], 4); // takes the second
 */
export function solveKnapsack(things: readonly KnapsackThing[], capacity: number): KnapsackChoice {
  requireNonNegative('solveKnapsack', 'capacity', capacity);
  things.forEach(({ weight, value }, i) => {
    requireFinite('solveKnapsack', `things[${i}].weight`, weight);
    requireNonNegative('solveKnapsack', `things[${i}].weight`, weight);
    requireNonNegative('solveKnapsack', `things[${i}].value`, value);
  });

  // Sorted by weight, values rising strictly: whatever is as heavy and no better is gone.
  let front: Choice[] = [{ weight: 0, value: 0, thing: -1, before: undefined }];
  things.forEach(({ weight, value }, thing) => {
    if (value === 0 || weight > capacity) return;
    front = merged(front, weight, value, thing, capacity);
  });

  const best = front.at(-1)!; // the front begins with the empty choice
  const taken = things.map(() => false);
  for (let step: Choice | undefined = best; step && step.thing >= 0; step = step.before)
    taken[step.thing] = true;
  return { taken, weight: best.weight, value: best.value };
}

/** The front and the same with one thing more, merged by weight and thinned. */
function merged(
  front: readonly Choice[],
  weight: number,
  value: number,
  thing: number,
  capacity: number,
): Choice[] {
  const next: Choice[] = [];
  let without = 0;
  let withIt = 0;
  const push = (choice: Choice) => {
    const last = next.at(-1);
    if (last && choice.value <= last.value) return;
    // As heavy and better: it takes the other's place.
    if (last && choice.weight === last.weight) next.pop();
    next.push(choice);
  };
  while (without < front.length || withIt < front.length) {
    const old = front[without];
    const base = front[withIt];
    const heavier = base && base.weight + weight;
    if (heavier !== undefined && heavier > capacity) withIt = front.length;
    else if (old && (heavier === undefined || old.weight <= heavier)) {
      push(old);
      without += 1;
    } else if (base && heavier !== undefined) {
      push({ weight: heavier, value: base.value + value, thing, before: base });
      withIt += 1;
    }
  }
  return next;
}
