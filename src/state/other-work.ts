/** Lets whatever waits on this thread have its turn; timers would add milliseconds of their own. */
export function otherWork(): Promise<void> {
  return new Promise((resolve) => {
    const { port1, port2 } = new MessageChannel();
    port1.onmessage = () => {
      port1.close();
      resolve();
    };
    port2.postMessage(null);
  });
}

/**
 * Cuts long work into stretches: between two steps of it, `if (stretch.over()) await stretch.pause()`.
 *
 * @param mostMs longest stretch before keys and frames have their turn
 */
export function stretchOf(mostMs: number): {
  readonly over: () => boolean;
  readonly pause: () => Promise<void>;
} {
  let began = performance.now();
  return {
    over: () => performance.now() - began > mostMs,
    pause: async () => {
      await otherWork();
      began = performance.now();
    },
  };
}
