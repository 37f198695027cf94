import { beforeEach, describe, expect, it } from 'vitest';
import { mappingChanges, rememberedMapping } from '../../../src/state/kept-mappings';
import { freshIndexedDB } from '../storage/harness';
import { openTab } from './tab';

beforeEach(freshIndexedDB);

const header = ['when', 'how', 'about'];
const table = { header, guessed: { fields: ['date', null, 'topics'] as const } };

describe('how the columns of a kind of file were read', () => {
  it('is kept once it differs from the guess, and found again by the header alone', async () => {
    const { workspace } = await openTab();
    expect(mappingChanges(workspace, 'a.csv', table, table.guessed)).toEqual([]);
    const mine = { fields: ['date', 'outcome', null] as const };
    await workspace.commit('bring in', mappingChanges(workspace, 'a.csv', table, mine));
    expect(rememberedMapping(workspace, [...header])).toEqual(mine);
    expect(rememberedMapping(workspace, ['when', 'how'])).toBeUndefined();
    // Read so again: there is nothing new to keep.
    expect(mappingChanges(workspace, 'b.csv', table, mine)).toEqual([]);
  });

  it('is changed in its own record, also back to the guess', async () => {
    const { workspace } = await openTab();
    const mine = { fields: ['date', 'outcome', null] as const };
    await workspace.commit('bring in', mappingChanges(workspace, 'a.csv', table, mine));
    await workspace.commit('bring in', mappingChanges(workspace, 'b.csv', table, table.guessed));
    expect(workspace.of('columnMappings').live.size).toBe(1);
    expect(rememberedMapping(workspace, header)).toEqual({ fields: ['date', null, 'topics'] });
  });

  it('leaves a column unread whose kept field this version does not know', async () => {
    const { workspace } = await openTab();
    const put = {
      id: workspace.makeId<'column-mapping'>(),
      name: 'a.csv',
      headers: header,
      fields: ['date', 'tide', 'topics'],
    };
    await workspace.commit('bring in', [{ kind: 'columnMappings', put }]);
    expect(rememberedMapping(workspace, header)?.fields).toEqual(['date', null, 'topics']);
  });
});
