import { describe, expect, it, vi } from 'vitest';
import { Notices } from '../../../src/state/notices.svelte';

const textsOf = (notices: Notices) => notices.list.map(({ text }) => text);

describe('Notices', () => {
  it('keeps only the last word on what was done', () => {
    const notices = new Notices();
    notices.done('Item 7 marked.');
    notices.done('Item 9 marked.');
    expect(textsOf(notices)).toEqual(['Item 9 marked.']);
  });

  it('keeps a failure until it is put away, beside what was done since', () => {
    const notices = new Notices();
    notices.failed('The disk is full.');
    notices.done('Item 7 marked.');
    notices.done('Item 9 marked.');
    expect(notices.list.map(({ tone, text }) => [tone, text])).toEqual([
      ['failed', 'The disk is full.'],
      ['done', 'Item 9 marked.'],
    ]);
    notices.putAway(notices.list[0]!.id);
    expect(textsOf(notices)).toEqual(['Item 9 marked.']);
  });

  it('leaves what was done on screen when a reminder comes by itself', () => {
    const notices = new Notices();
    notices.done('24 items came in.', { label: 'Undo', run: () => undefined });
    notices.remind('There is no backup yet.');
    expect(textsOf(notices)).toEqual(['24 items came in.', 'There is no backup yet.']);
    notices.done('Item 9 marked.');
    expect(textsOf(notices)).toEqual(['There is no backup yet.', 'Item 9 marked.']);
  });

  it('says the same failure once, as the newest', () => {
    const notices = new Notices();
    for (const text of ['Lost at sea.', 'The disk is full.', 'Lost at sea.']) notices.failed(text);
    expect(textsOf(notices)).toEqual(['The disk is full.', 'Lost at sea.']);
  });

  it('shows three at most: the oldest gives way', () => {
    const notices = new Notices();
    for (const number of [1, 2, 3, 4]) notices.failed(`Failure ${number}.`);
    expect(textsOf(notices)).toEqual(['Failure 2.', 'Failure 3.', 'Failure 4.']);
  });

  it('gives every notice its own id, also after others were put away', () => {
    const notices = new Notices();
    const seen = new Set<number>();
    for (let count = 0; count < 5; count += 1) {
      notices.failed('Again.');
      const { id } = notices.list.at(-1)!;
      seen.add(id);
      notices.putAway(id);
    }
    expect(seen.size).toBe(5);
    expect(notices.list).toEqual([]);
  });

  it('carries the way back with the word', () => {
    const notices = new Notices();
    const run = vi.fn();
    notices.done('Item 7 marked.', { label: 'Undo', run });
    expect(notices.list[0]?.action?.label).toBe('Undo');
    notices.list[0]?.action?.run();
    expect(run).toHaveBeenCalledOnce();
    notices.failed('The disk is full.');
    expect(notices.list.at(-1)?.action).toBeUndefined();
  });

  it('leaves the list as it is when an unknown notice is put away', () => {
    const notices = new Notices();
    notices.done('Item 7 marked.');
    notices.putAway(99);
    expect(textsOf(notices)).toEqual(['Item 7 marked.']);
  });
});
