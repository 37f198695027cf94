import { describe, expect, it } from 'vitest';
import { loadPart, type SavedPart } from '../../../src/search';
import { searchJobs } from '../../../src/workers/search-jobs';
import { concept, note } from '../search/documents';
import { fakeContext } from './linked-worker';

const context = fakeContext();
const documents = [
  note('notes:1', 'Acidosis', 'bicarbonate is low'),
  concept('concepts:2', 'Anion gap', ['AG']),
];
const held = documents.map(({ key, mark }) => [key, mark] as const);

/** Everything there is to save, as the storage would hand it back. */
async function saved(jobs: ReturnType<typeof searchJobs>) {
  const parts: { id: string; content: SavedPart | undefined }[] = [];
  for (let left = 1; left > 0;) {
    const answer = await jobs.save(null, context);
    if (answer.part) parts.push({ id: answer.part.id, content: answer.part.content });
    left = answer.left;
  }
  return structuredClone(parts);
}

const keysIn = (content: SavedPart | undefined) =>
  loadPart(structuredClone(content))?.documents.map(({ document }) => document.key);

/** The texts of a part with one letter altered, where `from` stands. */
function altered({ texts }: SavedPart, from: string): Uint8Array {
  const at = Buffer.from(texts).indexOf(from);
  expect(at).toBeGreaterThanOrEqual(0);
  const changed = texts.slice();
  changed[at]! ^= 1;
  return changed;
}

async function savedParts() {
  const jobs = searchJobs();
  await jobs.update({ put: documents, remove: [] }, context);
  return saved(jobs);
}

const countOf = async (jobs: ReturnType<typeof searchJobs>, typed: string) =>
  (await jobs.find({ typed, filters: {}, most: 5 }, context)).count;

describe('the search worker', () => {
  it('W3 finds from saved parts what it found before, with nothing to save again', async () => {
    const jobs = searchJobs();
    const answer = await jobs.restore(
      { parts: await savedParts(), first: true, last: true },
      context,
    );
    expect(answer).toEqual({ held, damaged: [] });
    expect(await countOf(jobs, 'bicarb')).toBe(1);
    expect(await countOf(jobs, 'ag ')).toBe(1);
    expect(await saved(jobs)).toEqual([]);
  });

  it('W3 takes saved parts over a few at a time, and forgets with the first what was there', async () => {
    const jobs = searchJobs();
    const parts = await savedParts();
    for (let times = 0; times < 2; times++) {
      await jobs.restore({ parts, first: true, last: false }, context);
      const answer = await jobs.restore({ parts: [], first: false, last: true }, context);
      expect(answer).toEqual({ held, damaged: [] });
      expect(await countOf(jobs, 'bicarb')).toBe(1);
    }
  });

  it('W3 says by its mark what may be stale, and saves a part anew that has changed', async () => {
    const edited = note('notes:1', 'Acidosis', 'bicarbonate is very low');
    const jobs = searchJobs();
    const answer = await jobs.restore(
      { parts: await savedParts(), first: true, last: true },
      context,
    );
    expect(new Map(answer.held).get('notes:1')).not.toBe(edited.mark);
    await jobs.update({ put: [edited], remove: ['concepts:2'] }, context);
    expect(await countOf(jobs, 'very')).toBe(1);
    expect(await countOf(jobs, 'anion')).toBe(0);
    const [part] = await saved(jobs);
    expect(keysIn(part?.content)).toEqual(['notes:1']);
  });

  it('W3 keeps one of two parts that hold the same document, and saves the other without it', async () => {
    const before = searchJobs();
    await before.update({ put: documents, remove: [] }, context);
    const asked = { typed: 'acidosis or gap', filters: {}, most: 5 };
    const found = await before.find(asked, context);
    expect(found.count).toBe(2);
    const [part] = await saved(before);
    const jobs = searchJobs();
    const twice = structuredClone([part!]).concat({ ...part!, id: 'part-9' });
    expect((await jobs.restore({ parts: twice, first: true, last: true }, context)).held).toEqual(
      held,
    );
    // The scores too: no word is counted twice.
    expect(await jobs.find(asked, context)).toEqual(found);
    expect(await saved(jobs)).toEqual([{ id: 'part-9', content: undefined }]);
  });

  it('saves many documents a part at a time', async () => {
    const jobs = searchJobs();
    const many = Array.from({ length: 900 }, (_, i) => note(`notes:${i}`, `Note ${i}`));
    await jobs.update({ put: many, remove: [] }, context);
    expect((await jobs.save(null, context)).left).toBe(2);
    const parts = await saved(jobs);
    expect(parts.map(({ content }) => keysIn(content)?.length)).toEqual([400, 100]);
  });

  it.each([
    ['nothing at all', () => undefined],
    ['another version', (content: SavedPart) => ({ ...content, version: 0 })],
    [
      'a word altered',
      (content: SavedPart) => ({ ...content, texts: altered(content, 'bicarbonate is') }),
    ],
    ['a key altered', (content: SavedPart) => ({ ...content, texts: altered(content, 'notes:1') })],
    [
      'a text cut short',
      (content: SavedPart) => ({ ...content, texts: content.texts.slice(0, -4) }),
    ],
    [
      'an odd byte too many',
      (content: SavedPart) => ({ ...content, texts: new Uint8Array([...content.texts, 0]) }),
    ],
    [
      'numbers cut short',
      (content: SavedPart) => ({ ...content, numbers: content.numbers.slice(2) }),
    ],
    [
      'two numbers altered alike',
      (content: SavedPart) => ({
        ...content,
        numbers: content.numbers.map((number, i) => (i < 2 ? (number ^ 0x80000000) >>> 0 : number)),
      }),
    ],
  ])('W3 lets go of a part damaged so: %s', async (_, damage) => {
    const parts = await savedParts();
    const jobs = searchJobs();
    const answer = await jobs.restore(
      {
        parts: parts.map(({ id, content }) => ({ id, content: damage(content!) })),
        first: true,
        last: true,
      },
      context,
    );
    expect(answer.damaged).toEqual(parts.map(({ id }) => id));
    expect(answer.held).toEqual([]);
  });
});
