/** The starter map's promises: its counts, its links and its texts. */
import { describe, expect, it } from 'vitest';
import { foldedLabel, readSeedMap } from './map-files';
import { closures, connectedParts, idsOnCycles, longestPath, unmeantShortcuts } from './map-laws';

const map = readSeedMap('human');
const { concepts } = map;
const linkCount = concepts.reduce((sum, concept) => sum + concept.restsOn.length, 0);

function countBy(of: (concept: (typeof concepts)[number]) => readonly string[]) {
  const counts = new Map<string, number>();
  for (const key of concepts.flatMap((concept) => [...of(concept)]))
    counts.set(key, (counts.get(key) ?? 0) + 1);
  return counts;
}

describe('the size of the human map', () => {
  it('has at least 430 concepts', () => {
    expect(concepts.length).toBeGreaterThanOrEqual(430);
  });

  it('has at least 1.6 links a concept on average', () => {
    expect(linkCount / concepts.length).toBeGreaterThanOrEqual(1.6);
  });

  it('is at least 5 links deep', () => {
    expect(longestPath(concepts)).toBeGreaterThanOrEqual(5);
  });

  it('has at least 40 concepts that are seen in four or more systems', () => {
    const shared = concepts.filter((concept) => concept.systems.length >= 4);
    expect(shared.length).toBeGreaterThanOrEqual(40);
  });

  it('has at least 40 concepts that lie under concepts of four or more other systems', () => {
    const systemsAbove = new Map<string, Set<string>>();
    const below = closures(concepts);
    for (const concept of concepts) {
      for (const id of below.get(concept.id) ?? []) {
        const above = systemsAbove.get(id) ?? new Set<string>();
        for (const system of concept.systems) above.add(system);
        systemsAbove.set(id, above);
      }
    }
    const shared = [...systemsAbove.values()].filter((systems) => systems.size >= 4);
    expect(shared.length).toBeGreaterThanOrEqual(40);
  });

  it.each(map.disciplines.map((discipline) => discipline.id as string))(
    'has at least 20 concepts that belong to %s',
    (id) => {
      expect(countBy((concept) => concept.disciplines).get(id) ?? 0).toBeGreaterThanOrEqual(20);
    },
  );

  it.each(map.systems.map((system) => system.id as string))(
    'has at least 18 concepts that are seen in %s',
    (id) => {
      expect(countBy((concept) => concept.systems).get(id) ?? 0).toBeGreaterThanOrEqual(18);
    },
  );

  it('names the twelve disciplines and fourteen organ systems of the brief', () => {
    expect(map.disciplines.length).toBe(12);
    expect(map.systems.length).toBe(14);
  });
});

describe('the links of the human map', () => {
  it('resolve every id of concept, discipline and system', () => {
    const ids = new Set<string>(concepts.map((concept) => concept.id));
    const disciplines = new Set<string>(map.disciplines.map((discipline) => discipline.id));
    const systems = new Set<string>(map.systems.map((system) => system.id));
    const lost = concepts.flatMap((concept) => [
      ...concept.restsOn.filter((link) => !ids.has(link.concept)).map((link) => link.concept),
      ...concept.disciplines.filter((id) => !disciplines.has(id)),
      ...concept.systems.filter((id) => !systems.has(id)),
    ]);
    expect(lost).toEqual([]);
    expect(ids.size).toBe(concepts.length);
  });

  it('go round in no cycle', () => {
    expect(idsOnCycles(concepts)).toEqual([]);
  });

  it('join the whole map into one part', () => {
    expect(connectedParts(concepts).slice(1)).toEqual([]);
  });

  it('state their strength where a longer path implies them too', () => {
    expect(unmeantShortcuts(concepts)).toEqual([]);
  });

  it('never name the same concept twice', () => {
    const doubled = concepts.filter(
      (concept) =>
        new Set(concept.restsOn.map((link) => link.concept)).size < concept.restsOn.length,
    );
    expect(doubled.map((concept) => concept.id)).toEqual([]);
  });
});

describe('the texts of the human map', () => {
  it('share no folded name or alias between two concepts', () => {
    const owners = new Map<string, Set<string>>();
    for (const concept of concepts) {
      for (const label of [concept.name, ...concept.aliases]) {
        const folded = foldedLabel(label);
        owners.set(folded, (owners.get(folded) ?? new Set<string>()).add(concept.id));
      }
    }
    const shared = [...owners].filter(([, ids]) => ids.size > 1);
    expect(shared.map(([label, ids]) => `${label}: ${[...ids].join(', ')}`)).toEqual([]);
  });

  it('repeat no label within one concept', () => {
    const repeated = concepts.filter((concept) => {
      const labels = [concept.name, ...concept.aliases].map((label) => label.toLowerCase());
      return new Set(labels).size < labels.length;
    });
    expect(repeated.map((concept) => concept.id)).toEqual([]);
  });

  it('cover each concept in one sentence under 220 characters', () => {
    const faulty = concepts.filter(
      ({ covers }) => covers.length >= 220 || !/^[^.!?]+(\.\d[^.!?]*)?\.$/.test(covers),
    );
    expect(faulty.map((concept) => concept.id)).toEqual([]);
  });

  it('give each concept one to three disciplines and at least one system, none twice', () => {
    const faulty = concepts.filter(
      ({ disciplines, systems }) =>
        disciplines.length < 1 ||
        disciplines.length > 3 ||
        systems.length < 1 ||
        new Set(disciplines).size < disciplines.length ||
        new Set(systems).size < systems.length,
    );
    expect(faulty.map((concept) => concept.id)).toEqual([]);
  });

  it('say that the map is a study aid and not a clinical terminology', () => {
    expect(map.about).toMatch(/study aid/);
    expect(map.about).toMatch(/not a clinical terminology/);
  });

  it('keep short names of systems within a column head of 12 characters', () => {
    const long = map.systems.filter((system) => (system.shortName ?? system.name).length > 12);
    expect(long.map((system) => system.id)).toEqual([]);
  });
});
