/**
 * The map as SKOS, held against a general RDF library for each syntax (n3 for
 * Turtle, jsonld for JSON-LD) and the integrity conditions of the SKOS Reference.
 */
import jsonld, { type JsonLdDocument } from 'jsonld';
import { Parser } from 'n3';
import { describe, expect, it } from 'vitest';
import { mapFromTriples } from '../../../src/formats/skos/to-map';
import { readJsonLd, readTurtle } from '../../../src/formats/skos/read';
import { triplesOfMap } from '../../../src/formats/skos/map-triples';
import { hyp, rdf, skos, type Triple } from '../../../src/formats/skos/vocabulary';
import { writeJsonLd, writeTurtle } from '../../../src/formats/skos/write';
import type { ConceptContent, DisciplineContent, SystemContent } from '../../../src/formats';

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
  systems: [
    { id: 'renal', name: 'Kidney', position: 0 } as SystemContent,
    { id: 'lung', name: 'Lung', position: 1 } as SystemContent,
  ],
  concepts: [
    concept('compensation', {
      name: 'Renal "compensation" \\ β\nline',
      aliases: ['kidney’s answer', 'a\ttab'],
      covers: 'What the kidney does.',
      disciplines: ['physiology'] as never,
      systems: ['renal'] as never,
      restsOn: [
        { concept: 'buffer' as never, strength: 0.7 },
        { concept: 'an id/with: signs' as never },
      ],
    }),
    concept('buffer', { systems: ['renal', 'lung'] as never }),
    concept('an id/with: signs'),
  ],
};
const triples = triplesOfMap(map);

/** Statements as sorted lines, however they were read. */
const lines = (list: readonly Triple[]) =>
  list
    .map(({ subject, predicate, object }) =>
      JSON.stringify([
        subject,
        predicate,
        object.value,
        object.kind === 'text' ? object.language : '@id',
      ]),
    )
    .sort();

describe('writing', () => {
  it('gives n3 the same statements in Turtle', () => {
    const quads = new Parser().parse(writeTurtle(triples));
    const found = quads.map(({ subject, predicate, object }) =>
      JSON.stringify([
        subject.value,
        predicate.value,
        object.value,
        object.termType === 'Literal' ? object.language : '@id',
      ]),
    );
    expect(found.sort()).toEqual(lines(triples));
  });

  it('gives jsonld the same statements in JSON-LD', async () => {
    const quads = (await jsonld.toRDF(JSON.parse(writeJsonLd(triples)) as object)) as {
      subject: { value: string };
      predicate: { value: string };
      object: { value: string; termType: string; language?: string };
    }[];
    const found = quads.map(({ subject, predicate, object }) =>
      JSON.stringify([
        subject.value,
        predicate.value,
        object.value,
        object.termType === 'Literal' ? (object.language ?? '') : '@id',
      ]),
    );
    expect(found.sort()).toEqual(lines(triples));
  });
});

describe('the integrity conditions of SKOS', () => {
  const of = (predicate: string) => triples.filter((each) => each.predicate === predicate);

  it('S9, S37: nothing is both a concept and a scheme', () => {
    const types = of(`${rdf}type`);
    const subjects = (type: string) =>
      new Set(
        types.filter(({ object }) => object.value === skos + type).map(({ subject }) => subject),
      );
    const schemes = subjects('ConceptScheme');
    expect(schemes.size).toBe(1);
    for (const each of subjects('Concept')) expect(schemes.has(each)).toBe(false);
  });

  it('S13, S14: one preferred label a language, and none that is an alternative too', () => {
    const seen = new Set<string>();
    for (const { subject, object } of of(`${skos}prefLabel`)) {
      const key = `${subject} ${object.kind === 'text' ? object.language : ''}`;
      expect(seen.has(key)).toBe(false);
      seen.add(key);
      const alternatives = of(`${skos}altLabel`).filter((each) => each.subject === subject);
      expect(alternatives.map((each) => each.object.value)).not.toContain(object.value);
    }
  });

  it('S27: what is related, by any sub-property, is not above or below', () => {
    const related = [...of(`${hyp}restsOn`), ...of(`${hyp}seenIn`)];
    expect(related.length).toBeGreaterThan(0);
    const broader = new Map<string, string[]>();
    for (const { subject, object } of of(`${skos}broader`)) {
      broader.set(subject, [...(broader.get(subject) ?? []), object.value]);
    }
    const above = (from: string): string[] =>
      (broader.get(from) ?? []).flatMap((to) => [to, ...above(to)]);
    for (const { subject, object } of related) {
      expect(above(subject)).not.toContain(object.value);
      expect(above(object.value)).not.toContain(subject);
    }
  });
});

describe('reading', () => {
  const ways = { language: 'en', broaderAsRestsOn: false };

  it.each([
    ['Turtle', () => readTurtle(writeTurtle(triples))],
    ['JSON-LD', () => readJsonLd(writeJsonLd(triples))],
  ])('gives our own map back from %s', (_name, read) => {
    const result = read();
    if (result.kind !== 'read') throw new Error(result.message);
    const back = mapFromTriples(result.triples, ways);
    expect(back.disciplines).toEqual(map.disciplines);
    expect(back.systems).toEqual(map.systems);
    const [first, ...others] = back.concepts;
    // Names are one line: the line end and the tab become spaces.
    expect(first).toEqual({
      ...map.concepts[0],
      name: 'Renal "compensation" \\ β line',
      aliases: ['kidney’s answer', 'a tab'],
    });
    expect(others).toEqual(map.concepts.slice(1));
    expect(back.notes).toEqual([]);
  });

  const foreign = {
    '@context': {
      '@base': 'http://example.org/t/',
      '@vocab': 'http://www.w3.org/2004/02/skos/core#',
      skos: 'http://www.w3.org/2004/02/skos/core#',
      ex: 'http://example.org/t/',
      label: { '@id': 'skos:prefLabel', '@container': '@language' },
      broader: { '@type': '@id' },
      under: { '@reverse': 'skos:broader', '@type': '@id' },
      note: { '@id': 'skos:definition', '@language': 'de' },
    },
    '@graph': [
      {
        '@id': 'a',
        '@type': 'Concept',
        label: { de: 'Herz', en: 'Heart' },
        broader: ['ex:b', { '@id': 'c' }],
      },
      { '@id': 'ex:b', '@type': 'skos:Concept', prefLabel: 'Organ', note: 'Ein Teil', under: 'c' },
      { '@id': 'c', '@type': 'Concept', altLabel: { '@value': 'Part', '@language': 'en' } },
    ],
  };

  it('reads compacted, expanded and flattened JSON-LD as jsonld does', async () => {
    // The package's types know fewer keywords than JSON-LD 1.1.
    const document = foreign as unknown as JsonLdDocument;
    const shapes = [
      foreign,
      await jsonld.expand(document),
      await jsonld.flatten(document, foreign['@context'] as never),
    ];
    const quads = (await jsonld.toRDF(document)) as unknown as unknown[];
    const asLines = shapes.map((shape) => {
      const result = readJsonLd(JSON.stringify(shape));
      if (result.kind !== 'read') throw new Error(result.message);
      return lines(result.triples);
    });
    expect(asLines[0]).toHaveLength(quads.length);
    expect(asLines[1]).toEqual(asLines[0]);
    expect(asLines[2]).toEqual(asLines[0]);
  });

  it('takes broader for rests on when asked, chooses the language, and breaks a loop, saying so', () => {
    const result = readTurtle(`
      @prefix skos: <http://www.w3.org/2004/02/skos/core#> . @prefix : <http://example.org/> .
      :a a skos:Concept ; skos:prefLabel "Herz"@de, "Heart"@en-GB ; skos:broader :b .
      :b a skos:Concept ; skos:prefLabel "Organ"@en ; skos:broader :c .
      :c a skos:Concept ; skos:prefLabel "Part"@en ; skos:broader :a .`);
    if (result.kind !== 'read') throw new Error(result.message);
    const read = mapFromTriples(result.triples, { language: 'en', broaderAsRestsOn: true });
    expect(read.concepts.map(({ name }) => name)).toEqual(['Heart', 'Organ', 'Part']);
    expect(read.concepts.map(({ restsOn }) => restsOn.length)).toEqual([1, 1, 0]);
    expect(read.notes).toEqual([
      {
        what: 'A link left out because it would close a loop',
        count: 1,
        examples: ['Part on Heart'],
      },
    ]);
    expect(
      mapFromTriples(result.triples, ways).concepts.every(({ restsOn }) => restsOn.length === 0),
    ).toBe(true);
  });

  it('names the line of a fault in Turtle, and refuses a context it would have to fetch', () => {
    expect(readTurtle('@prefix : <x> .\n:a :b')).toMatchObject({
      kind: 'rejected',
      message: expect.stringContaining('line 2') as string,
    });
    expect(readJsonLd('{"@context":"https://example.org/c.jsonld"}').kind).toBe('rejected');
    expect(readJsonLd('not json').kind).toBe('rejected');
  });
});
