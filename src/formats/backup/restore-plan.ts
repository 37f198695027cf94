/** What taking in a backup would change, worked out before anything is changed. */
import {
  asideRecord,
  chosenStamp,
  mergeCopies,
  mergedKinds,
  sameContent,
  type Copy,
} from '../../model/merge';
import type { DeviceId } from '../../model/ids';
import type { OtherVersion } from '../../model/kept-beside';
import { recordTitle } from '../../model/record-title';
import type { AnyRecord, RecordKind } from '../../model/records';
import { firstStamp, nextStamp } from '../../model/stamp';
import type { Instant } from '../../model/time';

/** `merge` brings two copies together; `replace` makes this one like the backup. */
export type RestoreMode = 'merge' | 'replace';

export interface KindCounts {
  readonly kind: RecordKind;
  readonly added: number;
  readonly changed: number;
  readonly removed: number;
  readonly same: number;
}

export interface NamedChange {
  readonly kind: RecordKind;
  readonly what: 'removed' | 'changed' | 'added';
  readonly title: string;
}

/** Named at most: more is not read. The counts are of all. */
const mostNamed = 200;

export interface RestorePlan {
  readonly mode: RestoreMode;
  /** Kinds that either copy holds, in the order of the model. Counts are of live records. */
  readonly counts: readonly KindCounts[];
  /** The first two hundred changes by name: what is taken away, then what is changed, then added. */
  readonly named: readonly NamedChange[];
  /** Records edited on both sides at once: the later version is shown, the other one kept. */
  readonly disputed: number;
  /** The whole copy as it would be. */
  readonly next: Copy;
}

/**
 * Works out what a backup would make of this device's copy.
 *
 * Time and memory grow linearly with the two copies.
 *
 * @param now dates the changes that have to be made on top of newer versions (`replace`)
 */
export function planRestore(
  mine: Copy,
  theirs: Copy,
  mode: RestoreMode,
  device: DeviceId,
  now: Instant,
): RestorePlan {
  const merged = mergeCopies(mine, theirs);
  const theirRecords = mode === 'replace' ? recordsByKind(theirs) : undefined;
  const next = new Map<RecordKind, AnyRecord[]>(mergedKinds.map((kind) => [kind, []]));
  const counts = new Map<RecordKind, MutableCounts>();
  const aside: OtherVersion[] = [];
  const named: Record<NamedChange['what'], NamedChange[]> = { removed: [], changed: [], added: [] };
  let disputed = 0;

  for (const { kind, id, before, shown, aside: others } of merged) {
    let record = shown;
    if (theirRecords) {
      const theirs = theirRecords.get(kind)?.get(id);
      // Without settings the app would begin anew: those of this device stay where the backup has none.
      record =
        kind === 'settings' && !theirs ? shown : replaced(before, theirs, shown, device, now);
    } else {
      for (const other of others) {
        aside.push({ ...asideRecord(kind, other), stamp: firstStamp(device, now) });
      }
      if (others.some((other) => !sameContent(other, shown))) disputed += 1;
    }
    next.get(kind)?.push(record);
    const what = count(counts, kind, before, record);
    if (what && what !== 'same' && named[what].length < mostNamed) {
      const title = recordTitle(what === 'removed' && before ? before : record);
      named[what].push({ kind, what, title });
    }
  }
  return {
    mode,
    counts: mergedKinds.flatMap((kind) => {
      const found = counts.get(kind);
      return found ? [{ kind, ...found }] : [];
    }),
    named: [...named.removed, ...named.changed, ...named.added].slice(0, mostNamed),
    disputed,
    next: {
      ...Object.fromEntries(next),
      otherVersions: settledAside((mine.otherVersions ?? []) as OtherVersion[], aside, device, now),
    },
  };
}

/** The backup's version on top of whatever is newer here; a deletion mark where it had none. */
function replaced(
  before: AnyRecord | undefined,
  theirs: AnyRecord | undefined,
  shown: AnyRecord,
  device: DeviceId,
  now: Instant,
): AnyRecord {
  if (!theirs) {
    if (!before || before.stamp.deleted) return shown;
    return { ...before, stamp: nextStamp(before.stamp, device, now, true) };
  }
  if (shown === theirs || !before) return theirs;
  if (sameContent(before, theirs)) return before;
  const versions = [{ record: before }, { record: theirs }];
  return { ...theirs, stamp: chosenStamp(theirs.stamp, versions, device, now) };
}

/** Versions already aside keep their stamps; those that are in dispute no more are marked deleted. */
function settledAside(
  before: readonly OtherVersion[],
  wanted: readonly OtherVersion[],
  device: DeviceId,
  now: Instant,
): OtherVersion[] {
  const stored = new Map(before.map((other) => [other.id, other]));
  const ids = new Set(wanted.map(({ id }) => id));
  const kept = wanted.map((other) => {
    const old = stored.get(other.id);
    if (!old) return other;
    return old.stamp.deleted ? { ...old, stamp: nextStamp(old.stamp, device, now) } : old;
  });
  const gone = before
    .filter(({ id }) => !ids.has(id))
    .map((other) =>
      other.stamp.deleted ? other : { ...other, stamp: nextStamp(other.stamp, device, now, true) },
    );
  return [...kept, ...gone];
}

interface MutableCounts {
  added: number;
  changed: number;
  removed: number;
  same: number;
}

function count(
  counts: Map<RecordKind, MutableCounts>,
  kind: RecordKind,
  before: AnyRecord | undefined,
  after: AnyRecord,
): keyof MutableCounts | undefined {
  const had = before !== undefined && !before.stamp.deleted;
  const has = !after.stamp.deleted;
  if (!had && !has) return undefined;
  const found = counts.get(kind) ?? { added: 0, changed: 0, removed: 0, same: 0 };
  counts.set(kind, found);
  const what = !had ? 'added' : !has ? 'removed' : sameContent(before, after) ? 'same' : 'changed';
  found[what] += 1;
  return what;
}

function recordsByKind(copy: Copy): Map<RecordKind, Map<string, AnyRecord>> {
  return new Map(
    mergedKinds.map((kind) => [
      kind,
      new Map((copy[kind] ?? []).map((record) => [record.id, record])),
    ]),
  );
}
