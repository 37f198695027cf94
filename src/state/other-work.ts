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
