import { describe, expect, it } from 'vitest';
import {
  storageFailure,
  storageFailureFrom,
  storageFailureKinds,
} from '../../../src/storage/failure';

describe('S5 a failure of the browser’s storage is named so that a person can act on it', () => {
  it.each([
    ['QuotaExceededError', 'full'],
    ['SecurityError', 'refused'],
    ['NotAllowedError', 'refused'],
    ['InvalidStateError', 'closed'],
    ['DataCloneError', 'uncloneable'],
    ['AbortError', 'interrupted'],
    ['UnknownError', 'unreadable'],
    ['NotReadableError', 'unreadable'],
  ])('S5 %s is %s', (name, kind) => {
    expect(storageFailureFrom(new DOMException('from the browser', name)).kind).toBe(kind);
  });

  it('S5 says in one sentence what happened and in another what to do', () => {
    for (const kind of storageFailureKinds) {
      const { message, wayOn } = storageFailure(kind);
      for (const sentence of [message, wayOn]) expect(sentence).toMatch(/^[A-Z].{20,}\.$/);
      // The browser's own words are for programmers.
      expect(message + wayOn).not.toMatch(/error|exception|transaction|IndexedDB/i);
    }
  });

  it.each([
    new DOMException('a bug', 'ConstraintError'),
    new DOMException('a bug', 'TransactionInactiveError'),
    new DOMException('a bug', 'toString'),
    new TypeError('a bug'),
    Object.assign(new Error('a bug'), { name: 'AbortError' }),
    'a bug',
  ])('S5 throws what no reader can act on: %s', (error) => {
    let thrown: unknown;
    try {
      storageFailureFrom(error);
    } catch (caught) {
      thrown = caught;
    }
    expect(thrown).toBe(error);
  });
});
