/** Statements as Turtle (W3C 2014) and as JSON-LD 1.1 (W3C 2020), both plain. */
import { hyp, ours, owl, rdf, rdfs, skos, xsd, type Term, type Triple } from './vocabulary';

const prefixes = { skos, rdf, rdfs, xsd, owl, hyp } as const;

/** "skos:broader" where a prefix fits and the rest is a plain name, else "<...>". */
function shortened(value: string): string {
  for (const [prefix, start] of Object.entries(prefixes)) {
    const rest = value.slice(start.length);
    if (value.startsWith(start) && /^[A-Za-z][A-Za-z0-9]*$/.test(rest)) return `${prefix}:${rest}`;
  }
  return `<${value}>`;
}

/** Turtle's escapes: quotes, backslashes, line ends and the other controls. */
function quoted(value: string): string {
  const escaped = value
    .replace(/[\\"]/g, '\\$&')
    .replace(/\n/g, '\\n')
    .replace(/\r/g, '\\r')
    .replace(/\t/g, '\\t')
    // eslint-disable-next-line no-control-regex -- controls are what is escaped here
    .replace(/[\u0000-\u001f]/g, (c) => `\\u${c.charCodeAt(0).toString(16).padStart(4, '0')}`);
  return `"${escaped}"`;
}

function turtleTerm(term: Term): string {
  if (term.kind === 'iri') return shortened(term.value);
  if (term.language) return `${quoted(term.value)}@${term.language}`;
  return term.type ? `${quoted(term.value)}^^${shortened(term.type)}` : quoted(term.value);
}

/** One paragraph a subject, in order of first appearance. */
export function writeTurtle(triples: readonly Triple[]): string {
  const head = Object.entries(prefixes).map(([name, start]) => `@prefix ${name}: <${start}> .`);
  const paragraphs = [...bySubject(triples)].map(([subject, list]) => {
    const parts = list.map(
      ({ predicate, object }) => `${shortened(predicate)} ${turtleTerm(object)}`,
    );
    return `${shortened(subject)}\n  ${parts.join(' ;\n  ')} .`;
  });
  return `${head.join('\n')}\n\n${paragraphs.join('\n\n')}\n`;
}

/** One object a subject in `@graph`, with a context of prefixes. */
export function writeJsonLd(triples: readonly Triple[]): string {
  const graph = [...bySubject(triples)].map(([subject, list]) => {
    const node: Record<string, unknown> = { '@id': subject };
    for (const { predicate, object } of list) {
      const isType = predicate === `${rdf}type`;
      const key = isType ? '@type' : compact(predicate);
      const value = isType && object.kind === 'iri' ? compact(object.value) : jsonValue(object);
      const before = node[key];
      if (before === undefined) node[key] = value;
      else if (Array.isArray(before)) before.push(value);
      else node[key] = [before, value];
    }
    return node;
  });
  return JSON.stringify({ '@context': { ...prefixes, map: ours }, '@graph': graph }, undefined, 1);
}

function compact(value: string): string {
  const short = shortened(value);
  return short.startsWith('<') ? value : short;
}

function jsonValue(term: Term): unknown {
  if (term.kind === 'iri') return { '@id': term.value };
  if (term.language) return { '@value': term.value, '@language': term.language };
  return term.type ? { '@value': term.value, '@type': term.type } : { '@value': term.value };
}

function bySubject(triples: readonly Triple[]): ReadonlyMap<string, readonly Triple[]> {
  const groups = new Map<string, Triple[]>();
  for (const triple of triples) {
    const group = groups.get(triple.subject);
    if (group) group.push(triple);
    else groups.set(triple.subject, [triple]);
  }
  return groups;
}
