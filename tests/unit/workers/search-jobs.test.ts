import { describe, expect, it } from 'vitest';
import type { SavedPart } from '../../../src/search';
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
  (JSON.parse(content?.documents ?? '[]') as { key: string }[]).map(({ key }) => key);

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
    const [part] = await savedParts();
    const jobs = searchJobs();
    const twice = [part!, { ...part!, id: 'part-9' }];
    expect((await jobs.restore({ parts: twice, first: true, last: true }, context)).held).toEqual(
      held,
    );
    expect(await countOf(jobs, 'bicarb')).toBe(1);
    expect(await saved(jobs)).toEqual([{ id: 'part-9', content: undefined }]);
  });

  it('saves many documents a part at a time', async () => {
    const jobs = searchJobs();
    const many = Array.from({ length: 900 }, (_, i) => note(`notes:${i}`, `Note ${i}`));
    await jobs.update({ put: many, remove: [] }, context);
    expect((await jobs.save(null, context)).left).toBe(2);
    const parts = await saved(jobs);
    expect(parts.map(({ content }) => keysIn(content).length)).toEqual([400, 100]);
  });

  it.each([
    ['nothing at all', () => undefined],
    ['another version', (content: object) => ({ ...content, version: 0 })],
    [
      'a word altered',
      (content: { words?: string }) => ({ ...content, words: content.words?.replace('is', 'it') }),
    ],
    [
      'a text cut short',
      (content: { documents?: string }) => ({
        ...content,
        documents: content.documents?.replace('bicarbonate', 'carbonate'),
      }),
    ],
    [
      'counts cut short',
      (content: { counts?: Uint32Array }) => ({ ...content, counts: content.counts?.slice(2) }),
    ],
  ])('W3 lets go of a part damaged so: %s', async (_, damage) => {
    const parts = await savedParts();
    const jobs = searchJobs();
    const answer = await jobs.restore(
      {
        parts: parts.map(({ id, content }) => ({ id, content: damage(content ?? {}) })),
        first: true,
        last: true,
      },
      context,
    );
    expect(answer.damaged).toEqual(parts.map(({ id }) => id));
    expect(answer.held).toEqual([]);
  });
});
