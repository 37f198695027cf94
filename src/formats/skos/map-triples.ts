/** A map as statements of SKOS (see vocabulary.ts for what maps to what). */
import type { MapContent } from '../map-file';
import { hyp, iri, ours, owl, rdf, rdfs, skos, text, xsd, type Triple } from './vocabulary';

const idIri = (kind: 'concept' | 'discipline' | 'system', id: string) =>
  `${ours}${kind}:${encodeURIComponent(id)}`;

/**
 * All statements of a map, with the definitions of our own terms first.
 *
 * A concept that is named twice the same (name and alias) keeps the name only: SKOS
 * lets no label be both (S13).
 *
 * @param map what is exported; links to what it does not hold are left out
 */
export function triplesOfMap(map: Omit<MapContent, 'doubts'>): readonly Triple[] {
  const scheme = `${ours}scheme`;
  const triples: Triple[] = [];
  const say = (subject: string, predicate: string, object: Triple['object']) =>
    triples.push({ subject, predicate, object });

  for (const [term, label, comment] of [
    ['restsOn', 'rests on', 'The subject cannot be understood without the object.'],
    ['seenIn', 'seen in', 'The subject is met in items about this organ system.'],
  ] as const) {
    say(hyp + term, rdf + 'type', iri(owl + 'ObjectProperty'));
    say(hyp + term, rdfs + 'subPropertyOf', iri(skos + 'related'));
    say(hyp + term, rdfs + 'label', text(label, 'en'));
    say(hyp + term, rdfs + 'comment', text(comment, 'en'));
  }
  say(scheme, rdf + 'type', iri(skos + 'ConceptScheme'));
  say(scheme, skos + 'prefLabel', text(map.name || 'Concept map', 'en'));
  if (map.about) say(scheme, skos + 'note', text(map.about, 'en'));

  for (const [kind, type, records] of [
    ['discipline', 'Discipline', map.disciplines],
    ['system', 'OrganSystem', map.systems],
  ] as const) {
    for (const { id, name, position } of records) {
      const subject = idIri(kind, id);
      say(subject, rdf + 'type', iri(skos + 'Concept'));
      say(subject, rdf + 'type', iri(hyp + type));
      say(subject, skos + 'prefLabel', text(name, 'en'));
      say(subject, skos + 'inScheme', iri(scheme));
      say(subject, skos + 'topConceptOf', iri(scheme));
      say(scheme, skos + 'hasTopConcept', iri(subject));
      if (position !== undefined) {
        say(subject, hyp + 'position', text(String(position), '', xsd + 'integer'));
      }
    }
  }

  const known = new Set<string>(map.concepts.map(({ id }) => id));
  const disciplines = new Set<string>(map.disciplines.map(({ id }) => id));
  const systems = new Set<string>(map.systems.map(({ id }) => id));
  for (const concept of map.concepts) {
    const subject = idIri('concept', concept.id);
    say(subject, rdf + 'type', iri(skos + 'Concept'));
    say(subject, skos + 'prefLabel', text(concept.name, 'en'));
    say(subject, skos + 'inScheme', iri(scheme));
    for (const alias of new Set(concept.aliases)) {
      if (alias !== concept.name) say(subject, skos + 'altLabel', text(alias, 'en'));
    }
    if (concept.covers) say(subject, skos + 'definition', text(concept.covers, 'en'));
    for (const id of concept.disciplines) {
      if (!disciplines.has(id)) continue;
      say(subject, skos + 'broader', iri(idIri('discipline', id)));
      say(idIri('discipline', id), skos + 'narrower', iri(subject));
    }
    for (const id of concept.systems) {
      if (systems.has(id)) say(subject, hyp + 'seenIn', iri(idIri('system', id)));
    }
    for (const { concept: below, strength } of concept.restsOn) {
      if (!known.has(below)) continue;
      say(subject, hyp + 'restsOn', iri(idIri('concept', below)));
      if (strength === undefined) continue;
      const link = `${subject}:on:${encodeURIComponent(below)}`;
      say(link, rdf + 'type', iri(hyp + 'Link'));
      say(link, hyp + 'from', iri(subject));
      say(link, hyp + 'to', iri(idIri('concept', below)));
      say(link, hyp + 'strength', text(String(strength), '', xsd + 'decimal'));
    }
  }
  return triples;
}
