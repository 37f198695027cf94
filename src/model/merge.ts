/**
 * Merging two devices' copies: the one place where its rules live.
 *
 * Each record is a set of versions of which none knows another: usually one, several after edits
 * made on two devices at once. Merging two sets keeps every version that no other one descends
 * from. That is the same in whatever order, however often and in whatever groups copies meet, so
 * devices that have met end equal.
 *
 * Source: Shapiro et al. 2011, "A comprehensive study of convergent and commutative replicated
 * data types", INRIA RR-7506, section 3.2.2 (multi-value register).
 */
import type { OtherVersion } from './kept-beside';
import type { DeviceId } from './ids';
import { parseRecord, recordKinds, type AnyRecord, type RecordKind } from './records';
import { compareRevisions, type Stamp } from './stamp';
import type { Instant } from './time';

/** One version of a record, with its kind. */
export interface Version {
  readonly kind: RecordKind;
  readonly record: AnyRecord;
}

/** Kinds that are merged; the versions set aside are worked out from these. */
export const mergedKinds = recordKinds.filter((kind) => kind !== 'otherVersions');

/**
 * The versions that no other one descends from, the one to be shown first.
 *
 * A live version is shown before a deleted one, then the latest change, then by content, so that
 * every device shows the same. Time grows with the square of the number of versions, which is small.
 *
 * @param versions of one record
 */
export function newestVersions<T extends { readonly record: AnyRecord }>(
  versions: readonly T[],
): T[] {
  const known = new Map(versions.map((version) => [canonicalText(version.record), version]));
  const distinct = [...known];
  return distinct
    .filter(
      ([, one]) =>
        !distinct.some(
          ([, other]) =>
            compareRevisions(other.record.stamp.revision, one.record.stamp.revision) === 'newer',
        ),
    )
    .sort(([textA, a], [textB, b]) => {
      const [x, y] = [a.record.stamp, b.record.stamp];
      return (
        Number(x.deleted) - Number(y.deleted) ||
        y.changedAt - x.changedAt ||
        (textA < textB ? 1 : -1)
      );
    })
    .map(([, version]) => version);
}

/** The stamp of the version a person chose among several: it descends from all of them. */
export function chosenStamp(
  chosen: Stamp,
  versions: readonly { readonly record: AnyRecord }[],
  device: DeviceId,
  now: Instant,
): Stamp {
  const revision: Record<string, number> = {};
  let last = chosen.changedAt;
  for (const { record } of versions) {
    last = last < record.stamp.changedAt ? record.stamp.changedAt : last;
    for (const [name, count] of Object.entries(record.stamp.revision)) {
      revision[name] = Math.max(Object.hasOwn(revision, name) ? (revision[name] ?? 0) : 0, count);
    }
  }
  const own = Object.hasOwn(revision, device) ? (revision[device] ?? 0) : 0;
  return {
    origin: chosen.origin,
    revision: { ...revision, [device]: own + 1 },
    changedAt: Math.max(now, last + 1) as Instant,
    deleted: chosen.deleted,
  };
}

/** A copy of the log: every record stored, deletion marks included, of every kind. */
export type Copy = { readonly [K in RecordKind]?: readonly AnyRecord[] };

/** What a merge makes of one record. */
export interface MergedRecord {
  readonly kind: RecordKind;
  readonly id: string;
  /** What this copy shows now; undefined where it has none. */
  readonly before: AnyRecord | undefined;
  /** The version to be shown. */
  readonly shown: AnyRecord;
  /** The versions to be set aside, still in dispute. */
  readonly aside: readonly AnyRecord[];
}

/**
 * Merges another copy into this one.
 *
 * @returns every record of either copy, in the order of kinds, then of ids
 *
 * @example
 * // mine: a note changed on "quay"; theirs: the same note, deleted since on "cabin"
 * mergeCopies(mine, theirs)[0].shown.stamp.deleted; // true
 */
export function mergeCopies(mine: Copy, theirs: Copy): MergedRecord[] {
  const asideMine = versionsAside(mine);
  const asideTheirs = versionsAside(theirs);
  return mergedKinds.flatMap((kind) => {
    const [here, there] = [byId(mine[kind]), byId(theirs[kind])];
    const ids = [...new Set([...here.keys(), ...there.keys()])].sort();
    return ids.map((id): MergedRecord => {
      const key = keyOf(kind, id);
      const before = here.get(id);
      const versions = [
        ...[before, there.get(id)].flatMap((record) => (record ? [{ record }] : [])),
        ...(asideMine.get(key) ?? []),
        ...(asideTheirs.get(key) ?? []),
      ];
      const [shown, ...aside] = newestVersions(versions);
      if (!shown) throw new RangeError(`mergeCopies: got no version of ${kind} "${id}"; need one`);
      return { kind, id, before, shown: shown.record, aside: aside.map(({ record }) => record) };
    });
  });
}

/** Whether two versions say the same, whoever wrote them and when. */
export function sameContent(one: AnyRecord, other: AnyRecord): boolean {
  return contentText(one) === contentText(other);
}

/**
 * The record under which a version is set aside. Its id follows from what it holds, so that two
 * devices set the same version aside under the same name.
 */
export function asideRecord(kind: RecordKind, record: AnyRecord): Omit<OtherVersion, 'stamp'> {
  const content = canonicalText(record);
  return {
    id: `${kind}-${shortHash(`${kind}\n${content}`)}` as OtherVersion['id'],
    kind,
    record: record.id,
    content,
  };
}

/** The version a record was set aside for; undefined where its text is no version any more. */
export function versionOf(other: OtherVersion): Version | undefined {
  const kind = recordKinds.find((each) => each === other.kind);
  if (!kind) return undefined;
  let input: unknown;
  try {
    input = JSON.parse(other.content);
  } catch {
    return undefined;
  }
  const checked = parseRecord(kind, input);
  return checked.kind === 'ok' ? { kind, record: checked.value } : undefined;
}

export const keyOf = (kind: string, id: string) => `${kind}\n${id}`;

/** Versions set aside in a copy, by the record they belong to. */
function versionsAside(copy: Copy): Map<string, Version[]> {
  const found = new Map<string, Version[]>();
  for (const other of (copy.otherVersions ?? []) as readonly OtherVersion[]) {
    const version = other.stamp.deleted ? undefined : versionOf(other);
    if (!version) continue;
    const key = keyOf(version.kind, version.record.id);
    const group = found.get(key);
    if (group) group.push(version);
    else found.set(key, [version]);
  }
  return found;
}

function byId(records: readonly AnyRecord[] = []): Map<string, AnyRecord> {
  return new Map(records.map((record) => [record.id, record]));
}

function contentText({ stamp, ...content }: AnyRecord): string {
  return canonicalText({ ...content, deleted: stamp.deleted });
}

/** JSON with the keys of every object sorted and undefined fields left out: equal values, equal text. */
export function canonicalText(value: unknown): string {
  return JSON.stringify(value, (_key, inner: unknown) => {
    if (typeof inner !== 'object' || inner === null || Array.isArray(inner)) return inner;
    const entries = Object.entries(inner).filter(([, held]) => held !== undefined);
    return Object.fromEntries(entries.sort(([a], [b]) => (a < b ? -1 : 1)));
  });
}

/**
 * 16 hexadecimal digits: two 32-bit FNV-1a sums (Fowler, Noll, Vo; draft-eastlake-fnv) over the
 * UTF-16 units, from two offsets. Enough to name a few thousand versions; no protection.
 */
export function shortHash(text: string): string {
  let [one, two] = [0x811c9dc5, 0x01000193];
  for (let i = 0; i < text.length; i++) {
    const unit = text.charCodeAt(i);
    one = Math.imul(one ^ unit, 0x01000193);
    two = Math.imul(two ^ unit, 0x01000193) + i;
  }
  const hex = (sum: number) => (sum >>> 0).toString(16).padStart(8, '0');
  return hex(one) + hex(two);
}
