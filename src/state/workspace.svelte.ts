/**
 * The candidate's whole log in memory, and the one way to change it.
 *
 * Screen -> `commit` or `amend` -> one transaction -> the collections, once the
 * change is durable. Other tabs' changes arrive through the channel. Each
 * change of this tab can be undone and redone until the tab is closed.
 */
import type { DeviceId, MakeId } from '../model/ids';
import type { Copy } from '../model/merge';
import { recordKinds, type AnyRecord, type RecordKind, type RecordOf } from '../model/records';
import { compareRevisions, firstStamp, nextStamp, type Revision, type Stamp } from '../model/stamp';
import { localDayOf, noonOf, type Instant, type LocalDay } from '../model/time';
import {
  applyChanges,
  readAll,
  readRecords,
  type ApplyResult,
  type Change,
  type Changed,
  type ChangesChannel,
  type RecordRef,
  type Store,
} from '../storage';
import { Collection } from './collection.svelte';

/** A record without its stamp: what a screen offers to be saved. */
export type Draft<K extends RecordKind> = Omit<RecordOf<K>, 'stamp'>;

export type DraftChange = {
  [K in RecordKind]:
    | {
        readonly kind: K;
        readonly put: Draft<K>;
        /** Of a record that came with the app; for one that is not stored yet. */
        readonly stamp?: Stamp;
      }
    | { readonly kind: K; readonly remove: string };
}[RecordKind];

/** Fields to change, or what makes them of the newest version. */
export type Amendment<K extends RecordKind> =
  Partial<Draft<K>> | ((newest: RecordOf<K>) => Partial<Draft<K>>);

export interface CommitOptions {
  readonly signal?: AbortSignal;
  readonly onprogress?: (done: number, total: number) => void;
  /** Typing: joins the last step if that has the same label and record, so that Undo takes back the whole text. */
  readonly typing?: boolean;
}

export type CommitResult =
  /** `step` names it for `undo`; undefined where nothing had to be changed. */
  | { readonly kind: 'saved'; readonly step?: number }
  | { readonly kind: 'stopped' }
  /** Another tab was first; the collections now hold its version. */
  | { readonly kind: 'conflict'; readonly refs: readonly RecordRef[] }
  | { readonly kind: 'failed'; readonly message: string };

/** One step that can be undone: what each record was before. */
interface Step {
  readonly id: number;
  readonly label: string;
  readonly before: readonly {
    readonly kind: RecordKind;
    readonly id: string;
    readonly record: AnyRecord | undefined;
  }[];
}

/** Steps kept for undo; the oldest is let go first. */
const mostSteps = 100;

interface FoundRecord {
  readonly kind: RecordKind;
  readonly id: string;
  readonly record: AnyRecord | undefined;
}

type Collections = { readonly [K in RecordKind]: Collection<K> };

export interface WorkspaceParts {
  readonly store: Store;
  readonly channel: ChangesChannel;
  readonly device: DeviceId;
  readonly makeId: MakeId;
  readonly now: () => Instant;
  /** Minutes the device's zone lies east of UTC at an instant. */
  readonly minutesEast: (at: Instant) => number;
}

export class Workspace {
  readonly #parts: WorkspaceParts;
  readonly #collections: Collections;
  #lastStep = 0;
  #undoSteps = $state.raw<readonly Step[]>([]);
  #redoSteps = $state.raw<readonly Step[]>([]);
  #saving = $state(0);
  /** The revision in which this tab left each record it has changed, by kind and id. */
  readonly #ownRevisions = new Map<string, Revision>();
  /** Changes go one after another, so that each sees the revisions of the one before. */
  #queue: Promise<unknown> = Promise.resolve();

  constructor(parts: WorkspaceParts) {
    this.#parts = parts;
    this.#collections = Object.fromEntries(
      recordKinds.map((kind) => [kind, new Collection(kind)]),
    ) as unknown as Collections;
    parts.channel.listen((changed) => void this.#hear(changed));
  }

  /** For state that keeps bytes or device values beside the records. */
  get store(): Store {
    return this.#parts.store;
  }

  get device(): DeviceId {
    return this.#parts.device;
  }

  get makeId(): MakeId {
    return this.#parts.makeId;
  }

  get now(): Instant {
    return this.#parts.now();
  }

  /** The page of the calendar on the candidate's wall. */
  get today(): LocalDay {
    return this.dayOf(this.now);
  }

  /** The local day of an instant, by the zone's offset at that instant and not at today's. */
  dayOf(at: Instant): LocalDay {
    return localDayOf(at, this.#parts.minutesEast(at));
  }

  /** Minutes the device's zone lies east of UTC at an instant. */
  minutesEast(at: Instant): number {
    return this.#parts.minutesEast(at);
  }

  /** Minutes the device's zone lies east of UTC at noon of a day. */
  minutesEastOn(day: LocalDay): number {
    return this.#parts.minutesEast(noonOf(day));
  }

  /** What the next undo would take back, in words; undefined when there is nothing. */
  get undoLabel(): string | undefined {
    return this.#undoSteps.at(-1)?.label;
  }

  get redoLabel(): string | undefined {
    return this.#redoSteps.at(-1)?.label;
  }

  get saving(): boolean {
    return this.#saving > 0;
  }

  of<K extends RecordKind>(kind: K): Collection<K> {
    return this.#collections[kind];
  }

  /** Every record in memory, deletion marks included, by kind. */
  copy(): Copy {
    return Object.fromEntries(recordKinds.map((kind) => [kind, [...this.of(kind).stored]]));
  }

  /** Reads everything stored into memory; undefined when it went well, else what went wrong. */
  async load(): Promise<string | undefined> {
    const read = await readAll(this.#parts.store);
    if (read.kind === 'failed') return `${read.failure.message} ${read.failure.wayOn}`;
    for (const kind of recordKinds) {
      // The records of a kind belong into the collection of that kind.
      (this.of(kind) as unknown as Collection<'blocks'>).replaceAll(
        read.records[kind] as readonly RecordOf<'blocks'>[],
      );
    }
    return undefined;
  }

  /**
   * Saves changes as one step: all of them or none, durable before it resolves.
   *
   * @param label what was done, to stand behind "Undo" ("mark item 7")
   * @param changes where they are made from records as they are, a function of them, run once all
   *   earlier steps are stored
   */
  commit(
    label: string,
    changes: readonly DraftChange[] | (() => readonly DraftChange[]),
    options: CommitOptions = {},
  ): Promise<CommitResult> {
    return this.#commit(label, typeof changes === 'function' ? changes : () => changes, options);
  }

  /** @param make gives the changes once those before them are stored; undefined: there is nothing to change */
  #commit(
    label: string,
    make: () => readonly DraftChange[] | undefined,
    options: CommitOptions,
  ): Promise<CommitResult> {
    return this.#enqueue(async () => {
      const changes = make();
      if (!changes) return { kind: 'failed', message: 'It was deleted in the meantime.' };
      const { result, before } = await this.#write(changes, options);
      if (result.kind !== 'saved' || before.length === 0) return result;
      const last = this.#undoSteps.at(-1);
      this.#redoSteps = [];
      if (options.typing && last && last.label === label && sameRecords(last.before, before)) {
        return { kind: 'saved', step: last.id };
      }
      const step = { id: ++this.#lastStep, label, before };
      this.#undoSteps = [...this.#undoSteps, step].slice(-mostSteps);
      return { kind: 'saved', step: step.id };
    });
  }

  /**
   * Changes some fields of the newest version of one record.
   *
   * Fields that are not named keep what another tab may have written since, and what an amendment
   * that is still being stored writes: whoever types and goes on at once loses neither. What adds to
   * a list gives a function of the newest version.
   */
  amend<K extends RecordKind>(
    label: string,
    kind: K,
    id: string,
    fields: Amendment<K>,
    options: CommitOptions = {},
  ): Promise<CommitResult> {
    const make = () => {
      const current = this.of(kind).find(id);
      if (!current) return undefined;
      const changed = typeof fields === 'function' ? fields(current) : fields;
      return [{ kind, put: { ...current, ...changed } } as unknown as DraftChange];
    };
    return this.#commit(label, make, options);
  }

  /**
   * Takes the last step back.
   *
   * @param step the step meant, where one is: if it is no longer the last one
   *   nothing happens and the result is a conflict without records
   */
  undo(step?: number): Promise<CommitResult> {
    return this.#enqueue(() => this.#stepBack('undo', step));
  }

  redo(): Promise<CommitResult> {
    return this.#enqueue(() => this.#stepBack('redo'));
  }

  async #stepBack(direction: 'undo' | 'redo', meant?: number): Promise<CommitResult> {
    const from = direction === 'undo' ? this.#undoSteps : this.#redoSteps;
    const step = from.at(-1);
    if (!step) return { kind: 'saved' };
    if (meant !== undefined && meant !== step.id) return { kind: 'conflict', refs: [] };
    const overtaken = step.before.filter((entry) => !this.#lastWrittenHere(entry));
    if (overtaken.length > 0) {
      return {
        kind: 'conflict',
        refs: overtaken.map(({ kind, id }) => ({ kind, id }) as RecordRef),
      };
    }
    const changes = step.before.map(({ kind, id, record }): DraftChange => {
      if (!record || record.stamp.deleted) return { kind, remove: id } as DraftChange;
      return { kind, put: record } as unknown as DraftChange;
    });
    const { result, before } = await this.#write(changes, {});
    if (result.kind !== 'saved') return result;
    const opposite = { ...step, before };
    if (direction === 'undo') {
      this.#undoSteps = this.#undoSteps.slice(0, -1);
      this.#redoSteps = [...this.#redoSteps, opposite];
    } else {
      this.#redoSteps = this.#redoSteps.slice(0, -1);
      this.#undoSteps = [...this.#undoSteps, opposite];
    }
    return result;
  }

  /** Whether the newest version of a record is this tab's own: only then may a step go back. */
  #lastWrittenHere({ kind, id }: { readonly kind: RecordKind; readonly id: string }): boolean {
    const stored: AnyRecord | undefined = this.of(kind).findStored(id);
    const own = this.#ownRevisions.get(`${kind} ${id}`);
    return (
      stored !== undefined &&
      own !== undefined &&
      compareRevisions(stored.stamp.revision, own) === 'same'
    );
  }

  /** Forgets the steps that could be undone; for when everything was replaced. */
  forgetSteps(): void {
    this.#undoSteps = [];
    this.#redoSteps = [];
    this.#ownRevisions.clear();
  }

  async #write(
    drafts: readonly DraftChange[],
    options: CommitOptions,
  ): Promise<{ result: CommitResult; before: Step['before'] }> {
    const before: { kind: RecordKind; id: string; record: AnyRecord | undefined }[] = [];
    const changes: Change[] = [];
    for (const draft of drafts) {
      const id = 'put' in draft ? draft.put.id : draft.remove;
      const stored: AnyRecord | undefined = this.of(draft.kind).findStored(id);
      const record = this.#stamped(draft, stored);
      if (!record) continue; // removing what never was
      before.push({ kind: draft.kind, id, record: stored });
      changes.push({ kind: draft.kind, record, basedOn: stored?.stamp.revision } as Change);
    }
    if (changes.length === 0) return { result: { kind: 'saved' }, before };

    this.#saving += 1;
    try {
      const applied = await applyChanges(this.#parts.store, changes, options);
      return { result: this.#settle(applied, changes), before };
    } finally {
      this.#saving -= 1;
    }
  }

  #stamped(draft: DraftChange, stored: AnyRecord | undefined): AnyRecord | undefined {
    const { device, now } = this.#parts;
    if ('put' in draft) {
      const stamp = stored
        ? nextStamp(stored.stamp, device, now())
        : (draft.stamp ?? firstStamp(device, now()));
      return { ...draft.put, stamp };
    }
    return stored && { ...stored, stamp: nextStamp(stored.stamp, device, now(), true) };
  }

  #settle(applied: ApplyResult, changes: readonly Change[]): CommitResult {
    switch (applied.kind) {
      case 'saved':
        for (const { kind, record } of changes) {
          this.#ownRevisions.set(`${kind} ${record.id}`, record.stamp.revision);
        }
        this.#take(changes.map(({ kind, record }) => ({ kind, id: record.id, record })));
        return { kind: 'saved' };
      case 'conflict':
        this.#take(applied.conflicts.map(({ kind, id, stored }) => ({ kind, id, record: stored })));
        return { kind: 'conflict', refs: applied.conflicts.map(({ kind, id }) => ({ kind, id })) };
      case 'stopped':
        return { kind: 'stopped' };
      case 'failed':
        return { kind: 'failed', message: `${applied.failure.message} ${applied.failure.wayOn}` };
    }
  }

  /** What another tab has saved. A failure to read it shows with the next save here. */
  async #hear(changed: Changed): Promise<void> {
    await this.#enqueue(async () => {
      if (changed === 'everything') return void (await this.load());
      const read = await readRecords(this.#parts.store, changed);
      if (read.kind === 'read') this.#take(read.records);
    });
  }

  /** Takes over what the store holds now; no record means it is gone. */
  #take(found: readonly FoundRecord[]): void {
    // By hand: Map.groupBy needs a newer Node than the tests may run on.
    const byKind = new Map<RecordKind, FoundRecord[]>();
    for (const entry of found) {
      const group = byKind.get(entry.kind);
      if (group) group.push(entry);
      else byKind.set(entry.kind, [entry]);
    }
    for (const [kind, group] of byKind) {
      // The store of a kind holds records of that kind.
      const collection = this.of(kind) as unknown as Collection<'blocks'>;
      collection.put(
        group.flatMap(({ record }) => (record ? [record as RecordOf<'blocks'>] : [])),
        group.filter(({ record }) => !record).map(({ id }) => id),
      );
    }
  }

  #enqueue<T>(work: () => Promise<T>): Promise<T> {
    const next = this.#queue.then(work, work);
    // A failed step must not block those behind it; its own caller sees the failure.
    this.#queue = next.catch(() => undefined);
    return next;
  }
}

function sameRecords(one: Step['before'], other: Step['before']): boolean {
  if (one.length !== other.length) return false;
  return one.every((entry, i) => {
    const there = other[i];
    return there !== undefined && entry.kind === there.kind && entry.id === there.id;
  });
}
