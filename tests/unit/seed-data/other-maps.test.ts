/** The veterinary map and the blank template: sound by themselves and beside the human map. */
import { describe, expect, it } from 'vitest';
import { foldedLabel, readSeedMap } from './map-files';
import { connectedParts, idsOnCycles, longestPath, unmeantShortcuts } from './map-laws';

const human = readSeedMap('human');
const veterinary = readSeedMap('veterinary');
const blank = readSeedMap('blank');
const { concepts } = veterinary;

describe('the veterinary map', () => {
  it('has at least 80 concepts, each discipline at least 5 and each system at least 10', () => {
    expect(concepts.length).toBeGreaterThanOrEqual(80);
    for (const { id } of veterinary.disciplines) {
      const within = concepts.filter((concept) => concept.disciplines.includes(id));
      expect(within.length, id).toBeGreaterThanOrEqual(5);
    }
    for (const { id } of veterinary.systems) {
      const within = concepts.filter((concept) => concept.systems.includes(id));
      expect(within.length, id).toBeGreaterThanOrEqual(10);
    }
  });

  it('resolves every id, in one part, without a cycle or an unmeant shortcut', () => {
    const known = new Set<string>(
      [...concepts, ...veterinary.disciplines, ...veterinary.systems].map((node) => node.id),
    );
    const used = concepts.flatMap((concept) => [
      ...concept.restsOn.map((link) => link.concept),
      ...concept.disciplines,
      ...concept.systems,
    ]);
    expect(used.filter((id) => !known.has(id))).toEqual([]);
    expect(connectedParts(concepts).slice(1)).toEqual([]);
    expect(idsOnCycles(concepts)).toEqual([]);
    expect(unmeantShortcuts(concepts)).toEqual([]);
    expect(longestPath(concepts)).toBeGreaterThanOrEqual(4);
  });

  it('covers each concept in one sentence under 220 characters', () => {
    const faulty = concepts.filter(
      ({ covers }) => covers.length >= 220 || !/^[^.!?]+\.$/.test(covers),
    );
    expect(faulty.map((concept) => concept.id)).toEqual([]);
  });
});

describe('the veterinary map beside the human map', () => {
  it('shares no concept id, so that both can be loaded', () => {
    const ids = new Set<string>(human.concepts.map((concept) => concept.id));
    expect(concepts.filter((concept) => ids.has(concept.id))).toEqual([]);
  });

  it('shares no folded name or alias, so that a topic still matches one concept', () => {
    const owners = new Map<string, Set<string>>();
    for (const concept of [...human.concepts, ...concepts]) {
      for (const label of [concept.name, ...concept.aliases]) {
        const folded = foldedLabel(label);
        owners.set(folded, (owners.get(folded) ?? new Set<string>()).add(concept.id));
      }
    }
    const shared = [...owners].filter(([, ids]) => ids.size > 1);
    expect(shared.map(([label, ids]) => `${label}: ${[...ids].join(', ')}`)).toEqual([]);
  });

  it('gives a shared discipline or system the same name', () => {
    const names = new Map<string, string>(
      [...human.disciplines, ...human.systems].map((node) => [node.id, node.name]),
    );
    const differing = [...veterinary.disciplines, ...veterinary.systems].filter(
      (node) => (names.get(node.id) ?? node.name) !== node.name,
    );
    expect(differing).toEqual([]);
  });
});

describe('the blank template', () => {
  it('holds a few disciplines and systems to rename, and no concept', () => {
    expect(blank.disciplines.length).toBeGreaterThan(0);
    expect(blank.systems.length).toBeGreaterThan(0);
    expect(blank.concepts).toEqual([]);
  });
});
