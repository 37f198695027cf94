/** Edits of the map: what follows, what is refused, and that each is one step back. */
import { describe, expect, it } from 'vitest';
import type { Concept } from '../../../src/model/concept-map';
import type { ConceptId } from '../../../src/model/ids';
import {
  countHanging,
  deleteConcept,
  impliedWay,
  linkConcepts,
  mergeConcepts,
  renameConcept,
  splitConcept,
  type Edit,
} from '../../../src/state/map-edit';
import type { DraftChange, Workspace } from '../../../src/state/workspace.svelte';
import { openTab } from './tab';

const id = (text: string) => text as ConceptId;
const concept = (
  name: string,
  restsOn: string[] = [],
  more: Partial<Concept> = {},
): DraftChange => ({
  kind: 'concepts',
  put: {
    id: id(name),
    name,
    aliases: [],
    covers: '',
    disciplines: [],
    systems: [],
    restsOn: restsOn.map((below) => ({ concept: id(below), strength: 0.5 })),
    ...more,
  },
});

/** top rests on middle, middle on deep; "twin" doubles middle. */
async function openMap(): Promise<Workspace> {
  const { workspace } = await openTab();
  const result = await workspace.commit('begin', [
    concept('top', ['middle', 'twin']),
    concept('middle', ['deep'], { aliases: ['centre'] }),
    concept('deep'),
    concept('twin', ['other']),
    concept('other'),
    {
      kind: 'notes',
      put: {
        id: 'note' as never,
        title: 'A note',
        text: 'See [it](#/concept/twin).',
        concepts: [id('twin'), id('middle')],
        disciplines: [],
        systems: [],
      },
    },
    {
      kind: 'items',
      put: {
        id: 'item' as never,
        block: 'block' as never,
        position: 1,
        outcome: 'missed',
        topics: [id('top')],
        causes: [id('twin')],
        missingPiece: '',
        optionTurns: [],
      },
    },
    {
      kind: 'readings',
      put: {
        id: 'reading' as never,
        title: 'A reading',
        source: '',
        locator: '',
        minutes: 9,
        kind: 'text',
        main: [id('middle')],
        touched: [id('twin')],
      },
    },
    {
      kind: 'lines',
      put: { id: 'line' as never, text: 'x', concepts: [id('twin')], timesNeeded: 0 },
    },
  ]);
  expect(result.kind).toBe('saved');
  return workspace;
}

/** Everything but the stamps, which count every change. */
function contentOf(workspace: Workspace) {
  const kinds = ['concepts', 'items', 'notes', 'readings', 'lines'] as const;
  return kinds.map((kind) =>
    [...workspace.of(kind).live.values()]
      .map(({ stamp: _stamp, ...content }) => content)
      .sort((a, b) => a.id.localeCompare(b.id)),
  );
}

async function commit(workspace: Workspace, edit: Edit): Promise<void> {
  if (edit.kind !== 'ok') throw new Error(JSON.stringify(edit));
  expect((await workspace.commit('edit', edit.changes)).kind).toBe('saved');
}

const find = (workspace: Workspace, name: string) => workspace.of('concepts').find(name);
const below = (workspace: Workspace, name: string) =>
  find(workspace, name)?.restsOn.map((link) => link.concept);

describe('edits of the map', () => {
  it('rename keeps the old name as an alias and refuses one that is taken, folded', async () => {
    const workspace = await openMap();
    expect(renameConcept(workspace, id('deep'), 'Centres')).toMatchObject({
      kind: 'taken',
      by: { id: 'middle' },
    });
    await commit(workspace, renameConcept(workspace, id('middle'), 'centre'));
    expect(find(workspace, 'middle')).toMatchObject({ name: 'centre', aliases: ['middle'] });
  });

  it('a link that would close a loop is refused, and the loop is named', async () => {
    const workspace = await openMap();
    expect(linkConcepts(workspace, id('deep'), id('top'), 0.4)).toEqual({
      kind: 'loop',
      names: ['deep', 'top', 'middle', 'deep'],
    });
    expect(linkConcepts(workspace, id('deep'), id('deep'), 0.4)).toEqual({
      kind: 'loop',
      names: ['deep', 'deep'],
    });
  });

  it('linking again changes the strength and nothing else', async () => {
    const workspace = await openMap();
    await commit(workspace, linkConcepts(workspace, id('top'), id('middle'), 0.9));
    expect(find(workspace, 'top')?.restsOn).toEqual([
      { concept: 'middle', strength: 0.9 },
      { concept: 'twin', strength: 0.5 },
    ]);
  });

  it('points out a link that is implied, and by which way', async () => {
    const workspace = await openMap();
    const { live } = workspace.of('concepts');
    expect(impliedWay(live, id('top'), id('deep'))).toEqual(['top', 'middle', 'deep']);
    expect(impliedWay(live, id('top'), id('middle'))).toBeUndefined();
  });

  it('merge: items, notes with their links, readings, lines and links follow; undo and redo are whole', async () => {
    const workspace = await openMap();
    const before = contentOf(workspace);
    await commit(workspace, mergeConcepts(workspace, id('middle'), id('twin')));
    expect(find(workspace, 'twin')).toBeUndefined();
    expect(find(workspace, 'middle')?.aliases).toEqual(['centre', 'twin']);
    expect(below(workspace, 'middle')).toEqual(['deep', 'other']);
    expect(below(workspace, 'top')).toEqual(['middle']);
    expect(workspace.of('items').find('item')?.causes).toEqual(['middle']);
    expect(workspace.of('notes').find('note')).toMatchObject({
      concepts: ['middle'],
      text: 'See [it](#/concept/middle).',
    });
    expect(workspace.of('readings').find('reading')).toMatchObject({
      main: ['middle'],
      touched: [],
    });
    expect(workspace.of('lines').find('line')?.concepts).toEqual(['middle']);

    const after = contentOf(workspace);
    await workspace.undo();
    expect(contentOf(workspace)).toEqual(before);
    await workspace.redo();
    expect(contentOf(workspace)).toEqual(after);
  });

  it('merging two ends of a longer way is refused: the one would rest on itself', async () => {
    const workspace = await openMap();
    expect(mergeConcepts(workspace, id('top'), id('deep'))).toEqual({
      kind: 'loop',
      names: ['top', 'middle', 'deep', 'top'],
    });
    await commit(workspace, mergeConcepts(workspace, id('top'), id('twin')));
    expect(below(workspace, 'top')).toEqual(['middle', 'other']);
  });

  it('split hands over what was chosen and is one step', async () => {
    const workspace = await openMap();
    const before = contentOf(workspace);
    const edit = splitConcept(workspace, id('middle'), id('half'), {
      name: 'half',
      systems: [],
      disciplines: [],
      aliases: ['centre'],
      below: [id('deep')],
      above: [id('top')],
      follow: 'both',
    });
    await commit(workspace, edit);
    expect(below(workspace, 'half')).toEqual(['deep']);
    expect(below(workspace, 'middle')).toEqual([]);
    expect(below(workspace, 'top')).toEqual(['half', 'twin']);
    expect(find(workspace, 'half')?.aliases).toEqual(['centre']);
    expect(workspace.of('notes').find('note')?.concepts).toEqual(['twin', 'middle', 'half']);
    await workspace.undo();
    expect(contentOf(workspace)).toEqual(before);
  });

  it('delete joins the links through it with the strength of the way, and hands over to an heir', async () => {
    const workspace = await openMap();
    const before = contentOf(workspace);
    expect(countHanging(workspace, id('twin'))).toEqual({
      items: 1,
      notes: 1,
      readings: 1,
      lines: 1,
      above: 1,
    });
    await commit(workspace, deleteConcept(workspace, id('twin'), true, id('deep')));
    expect(find(workspace, 'top')?.restsOn).toEqual([
      { concept: 'middle', strength: 0.5 },
      { concept: 'other', strength: 0.25 },
    ]);
    expect(workspace.of('lines').find('line')?.concepts).toEqual(['deep']);
    await workspace.undo();
    expect(contentOf(workspace)).toEqual(before);
  });
});
