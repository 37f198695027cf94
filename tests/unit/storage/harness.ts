/** What the storage tests share: a fresh in-memory IndexedDB, stores in it, records for it. */
import 'fake-indexeddb/auto';
import { forceCloseDatabase, IDBFactory } from 'fake-indexeddb';
import { unwrap } from 'idb';
import { idMaker, type DeviceId, type MakeId } from '../../../src/model/ids';
import { parseRecord, type RecordKind, type RecordOf } from '../../../src/model/records';
import { firstStamp, nextStamp } from '../../../src/model/stamp';
import type { Instant } from '../../../src/model/time';
import type { ChangeOf } from '../../../src/storage/change';
import { type ChannelLike, openChangesChannel } from '../../../src/storage/changes-channel';
import { openStore, type LostConnection, type OpenOptions } from '../../../src/storage/open';
import { readAll, type RecordsByKind } from '../../../src/storage/read-all';
import type { Store } from '../../../src/storage/store';

export const databaseName = 'storage-test';

/** The device of all tabs in these tests: tabs of one browser share it. */
export const device = 'device-7' as DeviceId;

/** 2026-02-03T04:05:06Z and so many seconds after it. */
export function at(seconds: number): Instant {
  return (Date.UTC(2026, 1, 3, 4, 5, 6) + seconds * 1_000) as Instant;
}

/** Forgets every database; call it before each test. */
export function freshIndexedDB(): void {
  globalThis.indexedDB = new IDBFactory();
}

export function countingIds(prefix: string): MakeId {
  let count = 0;
  return idMaker(() => `${prefix}-${++count}`);
}

/** A store of the current version, or a failed test. */
export async function requireStore(
  options: Partial<OpenOptions> & { lost?: LostConnection[] } = {},
): Promise<Store> {
  const result = await openStore({
    name: databaseName,
    onlost: (lost) => options.lost?.push(lost),
    ...options,
  });
  if (result.kind !== 'open') throw new Error(`the store is ${result.kind}, not open`);
  return result.store;
}

export async function requireRecords(store: Store): Promise<RecordsByKind> {
  const result = await readAll(store);
  if (result.kind !== 'read') throw new Error(result.failure.message);
  return result.records;
}

function requireRecord<K extends RecordKind>(kind: K, input: unknown): RecordOf<K> {
  const checked = parseRecord(kind, input);
  if (checked.kind === 'rejected') throw new Error(JSON.stringify(checked.faults));
  return checked.value;
}

export function newNote(id: string, text: string): RecordOf<'notes'> {
  return requireRecord('notes', {
    id,
    title: `Note ${id}`,
    text,
    concepts: [],
    disciplines: [],
    systems: [],
    stamp: firstStamp(device, at(0)),
  });
}

export function newBlock(id: string): RecordOf<'blocks'> {
  return requireRecord('blocks', {
    id,
    day: 20_500,
    itemCount: 40,
    timed: true,
    mixed: false,
    source: 'paper bank',
    stamp: firstStamp(device, at(0)),
  });
}

export function newItem(id: string, block: string, position: number): RecordOf<'items'> {
  return requireRecord('items', {
    id,
    block,
    position,
    outcome: 'missed',
    topics: [],
    causes: [],
    missingPiece: '',
    optionTurns: [],
    stamp: firstStamp(device, at(0)),
  });
}

export function added<K extends RecordKind>(kind: K, record: RecordOf<K>): ChangeOf<K> {
  return { kind, record, basedOn: undefined };
}

/** The note with another text, its stamp moved on, based on the note as given. */
export function edited(note: RecordOf<'notes'>, text: string, deleted = false): ChangeOf<'notes'> {
  const stamp = nextStamp(note.stamp, device, at(1), deleted);
  return { kind: 'notes', record: { ...note, text, stamp }, basedOn: note.stamp.revision };
}

/** Channels joined in one place: what one is told, all others hear at once. */
export class FakeChannels {
  readonly #channels: ChannelLike[] = [];
  readonly spoken: unknown[] = [];

  join(): ChannelLike {
    const channel: ChannelLike = {
      onmessage: null,
      close: () => undefined,
      postMessage: (message) => {
        this.spoken.push(message);
        this.say(message, channel);
      },
    };
    this.#channels.push(channel);
    return channel;
  }

  /** As any script of the same origin could. */
  say(message: unknown, from?: ChannelLike): void {
    for (const channel of this.#channels) {
      if (channel !== from) channel.onmessage?.(new MessageEvent('message', { data: message }));
    }
  }
}

/** One tab: its own connection and its own end of the channel. */
export async function requireTab(channels: FakeChannels): Promise<Store> {
  return requireStore({ channel: openChangesChannel(channels.join()) });
}

/** What fake-indexeddb keeps behind a connection, as far as `endByBrowser` needs it. */
interface FakeConnection {
  readonly _rawDatabase: {
    readonly transactions: readonly { _state: string; _abort(errorName: string): void }[];
  };
}

/**
 * Ends the connection as a browser does that clears the site's data: what is
 * going on is undone first (W3C, "Indexed Database API 3.0", "close a database
 * connection" with the forced flag), which fake-indexeddb leaves out.
 */
export async function endByBrowser(store: Store): Promise<void> {
  const db = unwrap(store.db);
  for (const tx of (db as unknown as FakeConnection)._rawDatabase.transactions) {
    if (tx._state !== 'finished') tx._abort('AbortError');
  }
  // It declares the argument as the class instead of an instance of it.
  (forceCloseDatabase as unknown as (connection: IDBDatabase) => void)(db);
  await new Promise((resolve) => setImmediate(resolve));
}
