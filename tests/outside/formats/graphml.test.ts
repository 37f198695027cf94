/**
 * The map as GraphML, read back by another program's reader (graphology-graphml over
 * xmldom), and its texts as an XML parser sees them.
 */
import Graph from 'graphology';
import { parse } from 'graphology-graphml';
import { describe, expect, it } from 'vitest';
import {
  writeGraphml,
  type ConceptContent,
  type DisciplineContent,
  type SystemContent,
} from '../../../src/formats';

const concept = (id: string, more: Partial<ConceptContent> = {}) =>
  ({
    id,
    name: id,
    aliases: [],
    covers: '',
    disciplines: [],
    systems: [],
    restsOn: [],
    ...more,
  }) as ConceptContent;

const map = {
  name: 'A small map',
  about: '',
  disciplines: [{ id: 'physiology', name: 'Physiology', position: 0 } as DisciplineContent],
  systems: [{ id: 'renal', name: 'Kidney & tract', position: 0 } as SystemContent],
  concepts: [
    concept('compensation', {
      name: 'Renal "compensation" <of> β & co’s\u0007',
      disciplines: ['physiology'] as never,
      systems: ['renal'] as never,
      restsOn: [{ concept: 'buffer', strength: 0.7 }, { concept: 'gone' }] as never,
    }),
    concept('buffer', { name: 'Bicarbonate buffer', restsOn: [{ concept: 'ph' }] as never }),
    concept('ph', { name: 'pH, pKₐ' }),
  ],
};

describe('the map as GraphML', () => {
  const graph = parse(Graph, writeGraphml(map), { addMissingNodes: false });

  it('has a node for every concept, system and discipline, with its name and kind', () => {
    const found = graph.mapNodes((id, data) => [id, data['kind'], data['name']]);
    expect(found.sort()).toEqual(
      [
        ['discipline:physiology', 'discipline', 'Physiology'],
        ['system:renal', 'system', 'Kidney & tract'],
        // A control that XML 1.0 cannot write is left out; all else is as it was.
        ['concept:compensation', 'concept', 'Renal "compensation" <of> β & co’s'],
        ['concept:buffer', 'concept', 'Bicarbonate buffer'],
        ['concept:ph', 'concept', 'pH, pKₐ'],
      ].sort(),
    );
  });

  it('has every link with its kind, direction and strength, and none to what is not there', () => {
    const links = graph.mapEdges((_, data, from, to) => [from, data['kind'], to, data['strength']]);
    expect(links.sort()).toEqual(
      [
        ['concept:compensation', 'rests on', 'concept:buffer', 0.7],
        ['concept:buffer', 'rests on', 'concept:ph', undefined],
        ['concept:compensation', 'seen in', 'system:renal', undefined],
        ['concept:compensation', 'belongs to', 'discipline:physiology', undefined],
      ].sort(),
    );
  });
});
