/**
 * What every stored record carries so that two devices can be merged later.
 *
 * The revision is a version vector: for each device, how many times it has
 * changed this record. One revision *descends from* another when no entry is
 * smaller; two that descend from neither are concurrent edits.
 *
 * Source: Parker et al. 1983, "Detection of mutual inconsistency in
 * distributed systems", IEEE Trans. Software Eng. 9(3), section III.
 */
import * as v from 'valibot';
import { deviceIdSchema, type DeviceId } from './ids';
import { instantSchema, type Instant } from './time';

export type Revision = Readonly<Record<string, number>>;

export interface Stamp {
  /** The device that made the record. */
  readonly origin: DeviceId;
  readonly revision: Revision;
  /** When the last change was made, by the clock of the device that made it. */
  readonly changedAt: Instant;
  /** A deleted record stays as a mark, so that a merge cannot bring it back. */
  readonly deleted: boolean;
}

export const stampSchema = v.object({
  origin: deviceIdSchema,
  revision: v.record(
    v.pipe(v.string(), v.nonEmpty(), v.maxLength(200)),
    v.pipe(v.number(), v.integer(), v.minValue(1)),
  ),
  changedAt: instantSchema,
  deleted: v.boolean(),
});

/** The stamp of a record made just now. */
export function firstStamp(device: DeviceId, now: Instant): Stamp {
  return { origin: device, revision: { [device]: 1 }, changedAt: now, deleted: false };
}

/** The day that all shipped records bear: before any change of a candidate's. */
const shippedAt = Date.UTC(2026, 0, 1) as Instant;

/**
 * The stamp of a record as it came with the app: the same on every device, so that two that began with
 * one map have nothing to settle when they meet.
 *
 * @param mark of its content: other content is another version, that neither descends from
 */
export function shippedStamp(mark: string): Stamp {
  return firstStamp(`shipped-${mark}` as DeviceId, shippedAt);
}

/**
 * The stamp after one more change on `device`. A change is always dated after the one it follows,
 * even where the clock was set back in between.
 */
export function nextStamp(stamp: Stamp, device: DeviceId, now: Instant, deleted = false): Stamp {
  const count = countOf(stamp.revision, device) + 1;
  return {
    origin: stamp.origin,
    revision: { ...stamp.revision, [device]: count },
    changedAt: Math.max(now, stamp.changedAt + 1) as Instant,
    deleted,
  };
}

export type RevisionOrder = 'same' | 'newer' | 'older' | 'concurrent';

/** How revision `a` stands to revision `b`. */
export function compareRevisions(a: Revision, b: Revision): RevisionOrder {
  let ahead = false;
  let behind = false;
  for (const device of new Set([...Object.keys(a), ...Object.keys(b)])) {
    const difference = countOf(a, device) - countOf(b, device);
    if (difference > 0) ahead = true;
    if (difference < 0) behind = true;
  }
  if (ahead && behind) return 'concurrent';
  if (ahead) return 'newer';
  return behind ? 'older' : 'same';
}

/** Only a revision's own entries count: a device may be called like a method of every object. */
function countOf(revision: Revision, device: string): number {
  return Object.hasOwn(revision, device) ? (revision[device] ?? 0) : 0;
}
