import { beforeEach, describe, expect, it } from 'vitest';
import type { Item } from '../../../src/model/log';
import { lineFromMiss, noteFromMiss } from '../../../src/state/miss-to-study';
import { freshIndexedDB } from '../storage/harness';
import { openTab } from './tab';

beforeEach(freshIndexedDB);

const miss = (fields: object = {}) =>
  ({
    topics: ['pump'],
    causes: ['seal'],
    missingPiece: ' The seal wears first. ',
    optionTurns: [
      { option: 'B', turn: 'if it were dry' },
      { option: '', turn: '' },
      { option: 'D', turn: '' },
    ],
    ...fields,
  }) as unknown as Item;

describe('a miss that goes on', () => {
  it('becomes a line of the recall sheet about its named causes, else its topics', async () => {
    const { workspace } = await openTab();
    expect(lineFromMiss(workspace, miss())).toMatchObject({
      text: 'The seal wears first.',
      concepts: ['seal'],
      timesNeeded: 1,
    });
    expect(lineFromMiss(workspace, miss({ causes: [] })).concepts).toEqual(['pump']);
  });

  it('becomes a note with its option turns and pictures, titled by the missing piece', async () => {
    const { workspace } = await openTab();
    const note = noteFromMiss(workspace, miss({ pictures: ['sketch'], system: 'deck' }), 'Item 7');
    expect(note).toMatchObject({
      title: 'The seal wears first.',
      text: 'The seal wears first.\n\n- B: if it were dry\n- D',
      concepts: ['seal'],
      systems: ['deck'],
      pictures: ['sketch'],
    });
    expect(noteFromMiss(workspace, miss({ missingPiece: '' }), 'Item 7').title).toBe('Item 7');
  });
});
