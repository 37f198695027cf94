/** Small things that every transaction needs. */

/** Undoes a transaction that has not ended: a rejected request has ended it, a synchronous throw has not. */
export function abortIfOpen(tx: { abort(): void }): boolean {
  try {
    tx.abort();
    return true;
  } catch (error) {
    // InvalidStateError: already aborted or committed, so nothing is left to undo.
    if (!(error instanceof DOMException && error.name === 'InvalidStateError')) throw error;
    return false;
  }
}

/** Settles when the transaction has ended: true if it was committed, false if undone. */
export function endOf(tx: IDBTransaction): Promise<boolean> {
  return new Promise((resolve) => {
    tx.addEventListener('complete', () => resolve(true));
    tx.addEventListener('abort', () => resolve(false));
  });
}
