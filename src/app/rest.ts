/** Tells when the person rests, so that slow work does not take the processor from what they do. */

/** What a person does at a page, and what follows from it at once. */
const doings = ['keydown', 'pointerdown', 'wheel', 'hashchange'] as const;

/**
 * Watches a window and gives a wait for rest: it ends once nothing was done there for a while,
 * counted from the last thing done or from the call, whichever is later.
 *
 * @param restMs how long, in ms
 *
 * @example
 * const rest = restAt(window, 2_000);
 * await rest(); // two seconds from now at the soonest
 */
export function restAt(target: EventTarget, restMs: number): () => Promise<void> {
  let lastDone = -Infinity;
  for (const doing of doings) {
    target.addEventListener(doing, () => (lastDone = performance.now()), {
      capture: true,
      passive: true,
    });
  }
  return async () => {
    const from = performance.now();
    for (;;) {
      const left = Math.max(from, lastDone) + restMs - performance.now();
      if (left <= 0) return;
      await new Promise((resolve) => setTimeout(resolve, left));
    }
  };
}
