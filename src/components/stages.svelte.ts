/**
 * Counts from 0 to the last stage, a task for each, so that a screen can be drawn part by part with keys
 * and frames in between. Made while its component is, and ends with it.
 */
export class Stages {
  #now = $state(0);

  constructor(last: () => number) {
    $effect(() => {
      if (this.#now >= last()) return;
      const timer = setTimeout(() => (this.#now += 1));
      return () => clearTimeout(timer);
    });
  }

  get now(): number {
    return this.#now;
  }
}
