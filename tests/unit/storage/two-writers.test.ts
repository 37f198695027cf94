/**
 * Two tabs that read and save in any order, at random moments.
 *
 * The oracle is in the data: each save appends its own name to the text its tab
 * has last seen. If no acknowledged save is ever overwritten unseen, the text
 * stored at the end names every acknowledged save once, and no refused one.
 */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { nextStamp } from '../../../src/model/stamp';
import type { RecordOf } from '../../../src/model/records';
import { applyChanges } from '../../../src/storage/apply-changes';
import type { Change } from '../../../src/storage/change';
import { readRecords } from '../../../src/storage/read-records';
import { closeStore, type Store } from '../../../src/storage/store';
import {
  added,
  at,
  device,
  edited,
  freshIndexedDB,
  newNote,
  requireRecords,
  requireStore,
} from './harness';

type Note = RecordOf<'notes'>;

const noteIds = ['n0', 'n1', 'n2'] as const;
type NoteId = (typeof noteIds)[number];

/** What one tab does next: wait so many turns, then read these notes or save to them. */
interface Step {
  readonly turns: number;
  readonly what: 'read' | 'save' | 'delete';
  readonly notes: readonly NoteId[];
}

const stepArbitrary: fc.Arbitrary<Step> = fc.record({
  turns: fc.nat({ max: 6 }),
  what: fc.constantFrom('read', 'save', 'save', 'save', 'delete'),
  notes: fc.subarray([...noteIds], { minLength: 1 }),
});

interface Tally {
  /** Names of the saves that were acknowledged, for each note. */
  readonly acknowledged: Map<NoteId, string[]>;
  refusedCount: number;
}

class Writer {
  readonly #seen = new Map<NoteId, Note | undefined>();
  readonly #name: string;
  readonly #store: Store;
  readonly #tally: Tally;
  #saveCount = 0;

  constructor(name: string, store: Store, tally: Tally) {
    this.#name = name;
    this.#store = store;
    this.#tally = tally;
  }

  async run(steps: readonly Step[]): Promise<void> {
    for (const { turns, what, notes } of steps) {
      for (let i = 0; i < turns; i++) await new Promise((resolve) => setImmediate(resolve));
      if (what === 'read') await this.#read(notes);
      else await this.#save(notes, what === 'delete');
    }
  }

  async #read(ids: readonly NoteId[]): Promise<void> {
    const refs = ids.map((id) => ({ kind: 'notes' as const, id: newNote(id, '').id }));
    const result = await readRecords(this.#store, refs);
    if (result.kind !== 'read') throw new Error(result.failure.message);
    result.records.forEach(({ id, record }) =>
      this.#seen.set(id as string as NoteId, record as Note),
    );
  }

  async #save(ids: readonly NoteId[], deleted: boolean): Promise<void> {
    const saveName = `${this.#name}${this.#saveCount++}`;
    const changes = ids.map((id) => this.#change(id, saveName, deleted));
    const result = await applyChanges(this.#store, changes);
    if (result.kind === 'saved') {
      for (const [i, id] of ids.entries()) {
        this.#seen.set(id, changes[i]?.record as Note);
        this.#tally.acknowledged.get(id)?.push(saveName);
      }
    } else if (result.kind === 'conflict') {
      this.#tally.refusedCount += 1;
      // The tab shows its reader what is stored: from now on it has been seen.
      for (const { id, stored } of result.conflicts) {
        this.#seen.set(id as string as NoteId, stored as Note | undefined);
      }
    } else throw new Error(result.kind);
  }

  #change(id: NoteId, saveName: string, deleted: boolean): Change {
    const seen = this.#seen.get(id);
    if (seen) return edited(seen, `${seen.text} ${saveName}`, deleted);
    return added('notes', newNote(id, saveName));
  }
}

/** Plays both scripts at once and returns what was promised and what is stored. */
async function play(first: readonly Step[], second: readonly Step[]) {
  freshIndexedDB();
  const stores = [await requireStore(), await requireStore()] as const;
  const tally: Tally = { acknowledged: new Map(noteIds.map((id) => [id, []])), refusedCount: 0 };
  await Promise.all([
    new Writer('a', stores[0], tally).run(first),
    new Writer('b', stores[1], tally).run(second),
  ]);
  const { notes } = await requireRecords(stores[0]);
  stores.forEach(closeStore);
  return { tally, notes };
}

describe('S2 two tabs never lose an acknowledged save unseen', () => {
  it('S2 whatever the order of 60 random pairs of scripts', async () => {
    let savedCount = 0;
    let refusedCount = 0;
    const script = fc.array(stepArbitrary, { minLength: 3, maxLength: 12 });

    await fc.assert(
      fc.asyncProperty(script, script, async (first, second) => {
        const { tally, notes } = await play(first, second);
        for (const id of noteIds) {
          const stored = notes.find((note) => note.id === id)?.text.split(' ') ?? [];
          const acknowledged = tally.acknowledged.get(id) ?? [];
          expect([...stored].sort()).toEqual([...acknowledged].sort());
          savedCount += acknowledged.length;
        }
        refusedCount += tally.refusedCount;
      }),
      { seed: 20_260_203, numRuns: 60 },
    );

    // Otherwise the scripts never met and the test shows nothing.
    expect(savedCount).toBeGreaterThan(200);
    expect(refusedCount).toBeGreaterThan(40);
  }, 60_000);

  it('S2 a save counts the revision up, so that the next author can tell', async () => {
    freshIndexedDB();
    const store = await requireStore();
    const note = newNote('n0', 'a');
    await applyChanges(store, [added('notes', note)]);
    await applyChanges(store, [edited(note, 'b')]);
    const [stored] = (await requireRecords(store)).notes;
    expect(stored?.stamp).toEqual(nextStamp(note.stamp, device, at(1)));
    expect(stored?.stamp.revision).toEqual({ [device]: 2 });
  });
});
