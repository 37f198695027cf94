/** What the store is asked to change, and what stands against it. */
import type { RecordKind, RecordOf } from '../model/records';
import { compareRevisions, type Revision } from '../model/stamp';
import type { RecordRef } from './schema';

export type Change = { [K in RecordKind]: ChangeOf<K> }[RecordKind];

export interface ChangeOf<K extends RecordKind> {
  readonly kind: K;
  /** The record as it shall be, its stamp already moved on; a deletion is a record marked deleted. */
  readonly record: RecordOf<K>;
  /**
   * Revision of the record as it was last read from the store or saved to it;
   * undefined for a new record. Never that of a change which is still unsaved.
   */
  readonly basedOn: Revision | undefined;
}

export type Conflict = { [K in RecordKind]: ConflictOf<K> }[RecordKind];

export interface ConflictOf<K extends RecordKind> {
  readonly kind: K;
  readonly id: RecordOf<K>['id'];
  /** What the store holds; undefined if the record is gone (everything was deleted). */
  readonly stored: RecordOf<K> | undefined;
  readonly offered: RecordOf<K>;
}

/** @throws {RangeError} if a record occurs twice, or does not descend from what it is based on */
export function requireSound(changes: readonly Change[]): void {
  const seen = new Set<string>();
  for (const { kind, record, basedOn } of changes) {
    const name = `${kind} "${record.id}"`;
    if (seen.has(name)) {
      throw new RangeError(`applyChanges: got two changes of ${name}; need at most one`);
    }
    seen.add(name);
    // Otherwise the next author could not tell this record from the one it replaced.
    if (basedOn !== undefined && compareRevisions(record.stamp.revision, basedOn) !== 'newer') {
      throw new RangeError(
        `applyChanges: got ${name} with a revision no newer than basedOn; need nextStamp`,
      );
    }
  }
}

export function refOf(change: Change): RecordRef {
  return { kind: change.kind, id: change.record.id };
}

/** @param stored what the change's own store holds under its id, so of the change's own kind */
export function conflictOf(change: Change, stored: unknown): Conflict {
  return { kind: change.kind, id: change.record.id, stored, offered: change.record } as Conflict;
}
