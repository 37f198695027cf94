/** Statements of SKOS as a map, with what was left out and why: the preview of an import. */
import type { ConceptId, DisciplineId, SystemId } from '../../model/ids';
import { cutShort } from './cut-short';
import type { ConceptContent, DisciplineContent, SystemContent } from '../map-file';
import { breakLoops } from './break-loops';
import { hyp, ours, rdf, skos, type Triple } from './vocabulary';

export interface SkosOptions {
  /** Preferred language of labels, as "en"; "en-GB" counts as "en". */
  readonly language: string;
  /** A foreign file has no *rests on*: whether its `broader` is to be taken for it. */
  readonly broaderAsRestsOn: boolean;
}

export interface SkosMap {
  readonly name: string;
  readonly disciplines: readonly DisciplineContent[];
  readonly systems: readonly SystemContent[];
  readonly concepts: readonly ConceptContent[];
  /** Whether the file holds *rests on* of ours. */
  readonly isOurs: boolean;
  readonly notes: readonly {
    readonly what: string;
    readonly count: number;
    readonly examples: readonly string[];
  }[];
}

const examplesShown = 5;

/**
 * Reads concepts, labels and links out of statements.
 *
 * Labels: the preferred language, else English, else one without a language, else
 * the first of any. Links that would close a loop are left out and listed. Time
 * grows with the number of statements.
 */
export function mapFromTriples(triples: readonly Triple[], options: SkosOptions): SkosMap {
  const bySubject = new Map<string, Triple[]>();
  for (const triple of triples) {
    const list = bySubject.get(triple.subject);
    if (list) list.push(triple);
    else bySubject.set(triple.subject, [triple]);
  }
  const iris = (subject: string, predicate: string) =>
    (bySubject.get(subject) ?? []).flatMap((triple) =>
      triple.predicate === predicate && triple.object.kind === 'iri' ? [triple.object.value] : [],
    );
  const texts = (subject: string, predicate: string) =>
    (bySubject.get(subject) ?? []).flatMap(({ predicate: each, object }) =>
      each === predicate && object.kind === 'text' && object.value.trim() !== '' ? [object] : [],
    );
  const rank = (language: string) => {
    const tag = language.toLowerCase().split('-')[0];
    return tag === options.language ? 0 : tag === 'en' ? 1 : tag === '' ? 2 : 3;
  };
  const best = (subject: string, predicate: string) =>
    texts(subject, predicate).sort((a, b) => rank(a.language) - rank(b.language))[0];

  const notes = new Map<string, string[]>();
  const note = (what: string, example: string) => {
    const list = notes.get(what);
    if (list) list.push(example);
    else notes.set(what, [example]);
  };

  const concepts: ConceptContent[] = [];
  const disciplines: DisciplineContent[] = [];
  const systems: SystemContent[] = [];
  const nodes = [...bySubject.keys()].filter((id) =>
    iris(id, `${rdf}type`).includes(`${skos}Concept`),
  );
  const isOf = (id: string, type: string) => iris(id, `${rdf}type`).includes(hyp + type);
  const known = new Set(nodes);
  const idOf = (node: string) => {
    const plain = /^urn:hypocentre:map:(?:concept|discipline|system):(.+)$/.exec(node)?.[1];
    return plain === undefined ? node.slice(-190) : decodeURIComponent(plain);
  };
  const nameOf = (node: string) => {
    const label = best(node, `${skos}prefLabel`) ?? best(node, `${skos}altLabel`);
    if (label) return cutShort(label.value.trim());
    note('No label: the end of its address stands for it', node);
    return cutShort(node.split(/[#/:]/).at(-1) || node);
  };

  const isOurs = triples.some(({ subject }) => subject.startsWith(ours));
  const strengths = new Map<string, number>();
  for (const link of bySubject.keys()) {
    if (!isOf(link, 'Link')) continue;
    const strength = Number(texts(link, `${hyp}strength`)[0]?.value);
    if (!(strength > 0 && strength <= 1)) continue;
    strengths.set(`${iris(link, `${hyp}from`)[0]} ${iris(link, `${hyp}to`)[0]}`, strength);
  }
  // Many files state a link at one of its ends only.
  const broaderOf = new Map<string, Set<string>>();
  const addBroader = (narrow: string, broad: string) => {
    if (!known.has(narrow) || narrow === broad) return;
    if (!known.has(broad)) {
      note('A link to a concept that is not in the file', nameOf(narrow));
      return;
    }
    const set = broaderOf.get(narrow);
    if (set) set.add(broad);
    else broaderOf.set(narrow, new Set([broad]));
  };
  for (const node of nodes) {
    for (const broad of iris(node, `${skos}broader`)) addBroader(node, broad);
    for (const narrow of iris(node, `${skos}narrower`)) addBroader(narrow, node);
    if (!isOurs && iris(node, `${skos}related`).length > 0) {
      note('“related” has no direction and is not taken over', nameOf(node));
    }
  }

  for (const node of nodes) {
    const positionText = texts(node, `${hyp}position`)[0]?.value;
    const position = positionText === undefined ? undefined : Number(positionText);
    if (isOf(node, 'Discipline')) {
      disciplines.push({ id: idOf(node) as DisciplineId, name: nameOf(node), position });
      continue;
    }
    if (isOf(node, 'OrganSystem')) {
      systems.push({ id: idOf(node) as SystemId, name: nameOf(node), position });
      continue;
    }
    const name = nameOf(node);
    const broader = [...(broaderOf.get(node) ?? [])];
    const below = [
      ...iris(node, `${hyp}restsOn`).filter((each) => known.has(each)),
      ...(options.broaderAsRestsOn ? broader.filter((each) => !isOf(each, 'Discipline')) : []),
    ];
    concepts.push({
      id: idOf(node) as ConceptId,
      name,
      aliases: [
        ...new Set(
          [...texts(node, `${skos}altLabel`), ...texts(node, `${skos}prefLabel`)].map(({ value }) =>
            cutShort(value.trim()),
          ),
        ),
      ].filter((alias) => alias !== name),
      covers: (best(node, `${skos}definition`)?.value ?? '').replace(/\s+/g, ' ').slice(0, 2000),
      disciplines: broader
        .filter((each) => isOf(each, 'Discipline'))
        .map((each) => idOf(each) as DisciplineId),
      systems: iris(node, `${hyp}seenIn`)
        .filter((each) => isOf(each, 'OrganSystem'))
        .map((each) => idOf(each) as SystemId),
      restsOn: [...new Set(below)].map((each) => {
        const strength = strengths.get(`${node} ${each}`);
        const concept = idOf(each) as ConceptId;
        return strength === undefined ? { concept } : { concept, strength };
      }),
    });
  }
  const { kept, broken } = breakLoops(concepts);
  for (const link of broken) note('A link left out because it would close a loop', link);
  const scheme = [...bySubject.keys()].find((id) =>
    iris(id, `${rdf}type`).includes(`${skos}ConceptScheme`),
  );
  return {
    name: (scheme && best(scheme, `${skos}prefLabel`)?.value) ?? '',
    disciplines,
    systems,
    concepts: kept,
    isOurs,
    notes: [...notes].map(([what, list]) => ({
      what,
      count: list.length,
      examples: list.slice(0, examplesShown),
    })),
  };
}
