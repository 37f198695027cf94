import { describe, expect, it } from 'vitest';
import { searchJobs } from '../../../src/workers/search-jobs';
import { concept, note } from '../search/documents';
import { fakeContext } from './linked-worker';

const context = fakeContext();
const documents = [
  note('notes:1', 'Acidosis', 'bicarbonate is low'),
  concept('concepts:2', 'Anion gap', ['AG']),
];
const expected = documents.map(({ key, mark }) => [key, mark] as const);

async function savedParts() {
  const jobs = searchJobs();
  await jobs.update({ put: documents, remove: [] }, context);
  const parts = await jobs.save(null, context);
  return structuredClone(parts).map(({ id, content }) => ({ id, content }));
}

const countOf = async (jobs: ReturnType<typeof searchJobs>, typed: string) =>
  (await jobs.find({ typed, filters: {}, most: 5 }, context)).count;

describe('the search worker', () => {
  it('W3 finds from saved parts what it found before, with nothing to index again', async () => {
    const jobs = searchJobs();
    const answer = await jobs.restore({ parts: await savedParts(), expected }, context);
    expect(answer).toEqual({ wanting: [], damaged: [] });
    expect(await countOf(jobs, 'bicarb')).toBe(1);
    expect(await countOf(jobs, 'ag ')).toBe(1);
    expect(await jobs.save(null, context)).toEqual([]);
  });

  it('W3 asks for what is stale or new, and drops what is gone', async () => {
    const edited = note('notes:1', 'Acidosis', 'bicarbonate is very low');
    const jobs = searchJobs();
    const answer = await jobs.restore(
      { parts: await savedParts(), expected: [[edited.key, edited.mark]] },
      context,
    );
    expect(answer.wanting).toEqual(['notes:1']);
    expect(await countOf(jobs, 'anion')).toBe(0);
    await jobs.update({ put: [edited], remove: [] }, context);
    expect(await countOf(jobs, 'very')).toBe(1);
    const [part] = await jobs.save(null, context);
    expect(part?.content?.documents.map(({ key }) => key)).toEqual(['notes:1']);
  });

  it.each([
    ['nothing at all', () => undefined],
    ['another version', (content: object) => ({ ...content, version: 0 })],
    [
      'a word altered',
      (content: { words?: readonly string[] }) => ({
        ...content,
        words: ['x', ...(content.words ?? []).slice(1)],
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
      { parts: parts.map(({ id, content }) => ({ id, content: damage(content ?? {}) })), expected },
      context,
    );
    expect(answer.damaged).toEqual(parts.map(({ id }) => id));
    expect(answer.wanting).toEqual(['notes:1', 'concepts:2']);
  });
});
