/** What can go wrong in the browser's storage, said so that a person can act on it. */

export const storageFailureKinds = [
  'full',
  'refused',
  'closed',
  'uncloneable',
  'interrupted',
  'unreadable',
] as const;
export type StorageFailureKind = (typeof storageFailureKinds)[number];

export interface StorageFailure {
  readonly kind: StorageFailureKind;
  /** One sentence: what happened. It claims nothing was changed, because nothing was. */
  readonly message: string;
  /** One sentence: what to do now. */
  readonly wayOn: string;
}

const sentences: Readonly<Record<StorageFailureKind, Omit<StorageFailure, 'kind'>>> = {
  full: {
    message: 'The browser has no room left for this site, so nothing was saved.',
    wayOn: 'Free some disk space or clear data of other sites, then save again.',
  },
  refused: {
    message: 'The browser does not let this site store anything.',
    wayOn:
      'Leave the private window, or allow site data for this address in the settings of the browser, then reload.',
  },
  closed: {
    message: 'This tab has lost its connection to the stored data, so nothing was saved.',
    wayOn: 'Copy what you typed if you need it, then reload this page.',
  },
  uncloneable: {
    message: 'One of the records holds something that cannot be stored, so nothing was saved.',
    wayOn: 'This is a fault of the program: please report what you were saving.',
  },
  interrupted: {
    message: 'The browser broke off the work with the stored data and undid what it had begun.',
    wayOn: 'Try again; if it happens again, reload this page.',
  },
  unreadable: {
    message: 'The browser could not read or write its own files for this site.',
    wayOn:
      'Close the browser and open it again; if that does not help, restore your latest backup.',
  },
};

const kindOfName: ReadonlyMap<string, StorageFailureKind> = new Map([
  ['QuotaExceededError', 'full'],
  ['SecurityError', 'refused'],
  ['NotAllowedError', 'refused'],
  ['InvalidStateError', 'closed'],
  ['DataCloneError', 'uncloneable'],
  ['AbortError', 'interrupted'],
  // A damaged or unreachable store; the second is Chromium's for a large value gone from the disk.
  ['UnknownError', 'unreadable'],
  ['NotReadableError', 'unreadable'],
]);

export function storageFailure(kind: StorageFailureKind): StorageFailure {
  return { kind, ...sentences[kind] };
}

/**
 * What a reader can do about an error of IndexedDB.
 *
 * Names of errors: W3C, "Indexed Database API 3.0", section 3 (Exceptions), and
 * WHATWG "Storage" for the quota.
 *
 * @throws the error itself when it is none that a reader can act on: a bug, for
 *   the top-level handler to report
 */
export function storageFailureFrom(error: unknown): StorageFailure {
  const kind = error instanceof DOMException ? kindOfName.get(error.name) : undefined;
  if (kind === undefined) throw error;
  return storageFailure(kind);
}
