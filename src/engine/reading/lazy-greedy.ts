/**
 * Completes a start by gain per minute, lazily: what a reading adds can only fall as others are
 * taken, so an old value is an upper bound, and only the few at the top are worked out afresh
 * (M. Minoux, "Accelerated greedy algorithms for maximizing submodular set functions", 1978).
 */
import { gainOf, takeInto, type Coverage } from './coverage';

/** Minutes by which rounding may exceed the budget. */
export const roundingMinutes = 1e-9;

export class LazyGreedy {
  /** How often a gain was worked out: the work done, whatever the machine. */
  evaluations = 0;
  readonly #coverage: Coverage;
  /** What the fixed readings leave of each concept. */
  readonly #base: Float64Array;
  readonly #budget: number;
  readonly #left: Float64Array;
  /** Candidates by gain per minute next to the fixed readings, highest first. */
  readonly order: Int32Array;
  readonly #density: Float64Array;
  /** Fewest minutes among the candidates from each place of `order` on: below it nothing fits. */
  readonly #fewestFrom: Float64Array;
  /** Heap of candidates worked out again in this run, by density. */
  readonly #heap: Int32Array;
  readonly #heapDensity: Float64Array;
  readonly #heapRound: Int32Array;
  #heapSize = 0;
  readonly #out: Uint8Array;

  /**
   * @param fixed readings taken in any case
   * @param candidates readings that may be taken besides
   * @param budgetMinutes minutes for the candidates
   */
  constructor(
    coverage: Coverage,
    fixed: readonly number[],
    candidates: readonly number[],
    budgetMinutes: number,
  ) {
    this.#coverage = coverage;
    this.#budget = budgetMinutes + roundingMinutes;
    this.#base = Float64Array.from(coverage.worth);
    for (const r of fixed) takeInto(coverage, this.#base, r);
    this.#left = new Float64Array(this.#base.length);
    const count = coverage.minutes.length;
    this.#density = new Float64Array(count);
    for (const r of candidates) {
      this.evaluations += 1;
      this.#density[r] = gainOf(coverage, this.#base, r) / coverage.minutes[r]!;
    }
    this.order = Int32Array.from(
      candidates
        .filter((r) => this.#density[r]! > 0 && coverage.minutes[r]! <= this.#budget)
        .sort((a, b) => this.#density[b]! - this.#density[a]! || a - b),
    );
    this.#fewestFrom = new Float64Array(this.order.length + 1).fill(Infinity);
    for (let k = this.order.length - 1; k >= 0; k--)
      this.#fewestFrom[k] = Math.min(this.#fewestFrom[k + 1]!, coverage.minutes[this.order[k]!]!);
    this.#heap = new Int32Array(count);
    this.#heapDensity = new Float64Array(count);
    this.#heapRound = new Int32Array(count);
    this.#out = new Uint8Array(count);
  }

  /** Gain of a candidate alone, next to the fixed readings. */
  aloneGain(r: number): number {
    return this.#density[r]! * this.#coverage.minutes[r]!;
  }

  minutesOf(readings: readonly number[]): number {
    let minutes = 0;
    for (const r of readings) minutes += this.#coverage.minutes[r]!;
    return minutes;
  }

  fits(readings: readonly number[]): boolean {
    return this.minutesOf(readings) <= this.#budget;
  }

  /**
   * Takes the start, then what adds most a minute as long as it fits.
   *
   * @param start candidates that fit together
   * @param barred candidates not to be taken
   * @returns the set and what it adds to the fixed readings
   */
  complete(
    start: readonly number[],
    barred: readonly number[] = [],
  ): { readonly readings: readonly number[]; readonly gain: number } {
    const { minutes } = this.#coverage;
    const left = this.#left;
    left.set(this.#base);
    const taken = [...start];
    let budget = this.#budget;
    let gain = 0;
    for (const r of barred) this.#out[r] = 1;
    const take = (r: number) => {
      gain += gainOf(this.#coverage, left, r);
      takeInto(this.#coverage, left, r);
      budget -= minutes[r]!;
      this.#out[r] = 1;
    };
    start.forEach(take);

    this.#heapSize = 0;
    let next = 0;
    for (let round = 0; ;) {
      if (this.#fewestFrom[next]! > budget) next = this.order.length;
      const fromOrder = next < this.order.length ? this.#density[this.order[next]!]! : -1;
      const fromHeap = this.#heapSize > 0 ? this.#heapDensity[0]! : -1;
      if (fromOrder <= 0 && fromHeap <= 0) break;
      if (fromHeap >= fromOrder) {
        const r = this.#heap[0]!;
        const fresh = this.#heapRound[0]! === round;
        this.#pop();
        if (minutes[r]! > budget) continue;
        if (fresh) {
          take(r);
          taken.push(r);
          round += 1;
        } else this.#push(r, left, round);
      } else {
        const r = this.order[next]!;
        next += 1;
        if (this.#out[r] === 1 || minutes[r]! > budget) continue;
        this.#push(r, left, round);
      }
    }
    for (const r of barred) this.#out[r] = 0;
    for (const r of taken) this.#out[r] = 0;
    return { readings: taken, gain };
  }

  /**
   * An upper bound on what any set within the budget adds: what a set has, and the rest as if gains
   * did not overlap and readings could be cut (a fractional knapsack at that set).
   */
  boundAt(readings: readonly number[]): number {
    const { minutes } = this.#coverage;
    const left = Float64Array.from(this.#base);
    let bound = 0;
    for (const r of readings) {
      bound += gainOf(this.#coverage, left, r);
      takeInto(this.#coverage, left, r);
    }
    const rest: { density: number; minutes: number }[] = [];
    for (const r of this.order) {
      const gain = gainOf(this.#coverage, left, r);
      if (gain > 0) rest.push({ density: gain / minutes[r]!, minutes: minutes[r]! });
    }
    this.evaluations += this.order.length;
    rest.sort((a, b) => b.density - a.density);
    let budget = this.#budget;
    for (const { density, minutes: cost } of rest) {
      const used = Math.min(budget, cost);
      bound += density * used;
      budget -= used;
      if (budget <= 0) break;
    }
    return bound;
  }

  #push(r: number, left: Float64Array, round: number): void {
    this.evaluations += 1;
    const density = gainOf(this.#coverage, left, r) / this.#coverage.minutes[r]!;
    if (density <= 0) return;
    let i = this.#heapSize;
    this.#heapSize += 1;
    while (i > 0) {
      const parent = (i - 1) >> 1;
      if (!this.#before(density, r, parent)) break;
      this.#move(parent, i);
      i = parent;
    }
    this.#place(i, r, density, round);
  }

  #pop(): void {
    this.#heapSize -= 1;
    const last = this.#heapSize;
    if (last === 0) return;
    const r = this.#heap[last]!;
    const density = this.#heapDensity[last]!;
    const round = this.#heapRound[last]!;
    let i = 0;
    for (;;) {
      let child = 2 * i + 1;
      if (child >= last) break;
      if (
        child + 1 < last &&
        this.#before(this.#heapDensity[child + 1]!, this.#heap[child + 1]!, child)
      )
        child += 1;
      if (this.#before(density, r, child)) break;
      this.#move(child, i);
      i = child;
    }
    this.#place(i, r, density, round);
  }

  /** Whether an entry comes before the one at a place; equal densities go by index. */
  #before(density: number, r: number, place: number): boolean {
    const there = this.#heapDensity[place]!;
    return density > there || (density === there && r < this.#heap[place]!);
  }

  #move(from: number, to: number): void {
    this.#place(to, this.#heap[from]!, this.#heapDensity[from]!, this.#heapRound[from]!);
  }

  #place(i: number, r: number, density: number, round: number): void {
    this.#heap[i] = r;
    this.#heapDensity[i] = density;
    this.#heapRound[i] = round;
  }
}
