/** Putting the log back from the spare copy, where the browser has thrown its database away. */
import { parseRecord, recordKinds, type AnyRecord, type RecordKind } from '../model/records';
import { compareRevisions } from '../model/stamp';
import {
  applyChanges,
  writePictureBytes,
  type Change,
  type SpareContent,
  type Store,
} from '../storage';
import type { BackupJobs } from '../workers/backup-jobs';
import type { WorkerClient } from '../workers/client';

export type PutBackResult =
  | { readonly kind: 'put-back'; readonly count: number }
  /** There was nothing to put back. */
  | { readonly kind: 'none' }
  | { readonly kind: 'failed'; readonly message: string };

/**
 * Stores everything that the spare copy holds: all of it or nothing.
 *
 * @param store of a database in which nothing is stored
 */
export async function putBack(
  store: Store,
  spare: SpareContent,
  client: WorkerClient<BackupJobs>,
): Promise<PutBackResult> {
  const found = new Map<RecordKind, Map<string, AnyRecord>>();
  if (spare.copy) {
    const opened = await client.run('open', new Uint8Array(await spare.copy.arrayBuffer()));
    const records = await client.run('records', null);
    // A copy that cannot be read leaves the changes since, which may be all there is.
    if (opened.kind === 'done' && opened.output.kind === 'read' && records.kind === 'done') {
      for (const kind of recordKinds) {
        for (const record of records.output[kind] ?? []) takeNewer(found, kind, record);
      }
    }
  }
  for (const { kind: name, record, gone } of spare.lines) {
    const kind = recordKinds.find((each) => each === name);
    if (!kind) continue;
    if (gone !== undefined) found.get(kind)?.delete(gone);
    const checked = parseRecord(kind, record);
    if (checked.kind === 'ok') takeNewer(found, kind, checked.value);
  }
  const changes = [...found].flatMap(([kind, records]) =>
    Array.from(records.values(), (record) => ({ kind, record, basedOn: undefined }) as Change),
  );
  if (changes.length === 0) return { kind: 'none' };
  const bytes = await Promise.all(
    Array.from(spare.pictures, async ([id, read]) => ({ id, bytes: await read() })),
  );
  const pictures = await writePictureBytes(store, bytes);
  const applied = await applyChanges(store, changes);
  for (const result of [pictures, applied]) {
    if (result.kind === 'failed') {
      return { kind: 'failed', message: `${result.failure.message} ${result.failure.wayOn}` };
    }
  }
  return { kind: 'put-back', count: changes.length };
}

/** Of two versions the one that knew the other; of two at once the later. */
function takeNewer(
  found: Map<RecordKind, Map<string, AnyRecord>>,
  kind: RecordKind,
  record: AnyRecord,
): void {
  const group = found.get(kind) ?? new Map<string, AnyRecord>();
  found.set(kind, group);
  const known = group.get(record.id);
  const order = known && compareRevisions(record.stamp.revision, known.stamp.revision);
  const later = known && record.stamp.changedAt >= known.stamp.changedAt;
  if (!known || order === 'newer' || (order !== 'older' && later)) group.set(record.id, record);
}
