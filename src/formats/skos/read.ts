/** Statements read from Turtle and JSON-LD files, ours or foreign. */
import { Parser } from 'n3';
import { rdf, type Term, type Triple } from './vocabulary';

export type ReadTriples =
  | { readonly kind: 'read'; readonly triples: readonly Triple[] }
  | { readonly kind: 'rejected'; readonly message: string };

/** Reads Turtle (and N-Triples, which is a part of it). */
export function readTurtle(source: string): ReadTriples {
  try {
    const quads = new Parser({ format: 'text/turtle', baseIRI: 'urn:file:' }).parse(source);
    return {
      kind: 'read',
      triples: quads.map(({ subject, predicate, object }) => ({
        subject: subject.termType === 'BlankNode' ? `_:${subject.value}` : subject.value,
        predicate: predicate.value,
        object:
          object.termType === 'Literal'
            ? { kind: 'text', value: object.value, language: object.language }
            : {
                kind: 'iri',
                value: object.termType === 'BlankNode' ? `_:${object.value}` : object.value,
              },
      })),
    };
  } catch (error) {
    // The parser throws an Error that names the line; anything else is a bug.
    if (!(error instanceof Error)) throw error;
    return { kind: 'rejected', message: `This is not Turtle as it should be: ${error.message}` };
  }
}

type Json = null | boolean | number | string | readonly Json[] | { readonly [key: string]: Json };
type JsonObject = { readonly [key: string]: Json };

interface TermRule {
  readonly iri: string;
  readonly isIri: boolean;
  readonly language: string;
  readonly byLanguage: boolean;
  readonly reverse: boolean;
}

const isObject = (value: Json | undefined): value is JsonObject =>
  typeof value === 'object' && value !== null && !Array.isArray(value);
const listOf = (value: Json | undefined): readonly Json[] =>
  value === undefined || value === null
    ? []
    : Array.isArray(value)
      ? (value as readonly Json[])
      : [value];

/**
 * Reads JSON-LD as SKOS files write it: expanded, or compacted with an inline
 * `@context` of prefixes, `@vocab`, `@base`, `@language` and terms (with `@id`,
 * `@type: @id` or `@vocab`, `@language`, `@container: @language`, `@reverse`).
 *
 * A context by address is not fetched: such a file is rejected with that reason.
 * Scoped contexts, lists, nesting and named graphs are not read.
 */
export function readJsonLd(source: string): ReadTriples {
  let file: Json;
  try {
    file = JSON.parse(source) as Json;
  } catch (error) {
    return { kind: 'rejected', message: `This is not JSON: ${(error as Error).message}` };
  }
  const triples: Triple[] = [];
  let blanks = 0;

  const contexts = isObject(file) ? listOf(file['@context']) : [];
  const remote = contexts.find((context) => typeof context === 'string');
  if (remote !== undefined) {
    return {
      kind: 'rejected',
      message: `The file leans on a context at ${remote}, which is not fetched. Save it expanded and try again.`,
    };
  }
  const context: JsonObject = Object.assign({}, ...contexts.filter(isObject)) as JsonObject;
  const stringAt = (key: string) => (typeof context[key] === 'string' ? context[key] : '');
  const vocab = stringAt('@vocab');
  const base = stringAt('@base');
  const language = stringAt('@language');

  const idOf = (key: string): string => {
    const rule = context[key];
    return typeof rule === 'string'
      ? rule
      : isObject(rule) && typeof rule['@id'] === 'string'
        ? rule['@id']
        : '';
  };
  function expand(value: string, against: string, seen = 0): string {
    const direct = idOf(value);
    if (direct !== '' && direct !== value && seen < 8) return expand(direct, vocab, seen + 1);
    const colon = value.indexOf(':');
    if (colon > 0) {
      const start = idOf(value.slice(0, colon));
      const rest = value.slice(colon + 1);
      if (start !== '' && !rest.startsWith('//') && seen < 8) {
        return expand(start, vocab, seen + 1) + rest;
      }
      return value;
    }
    if (value.startsWith('@')) return value;
    return against + value;
  }
  const rules = new Map<string, TermRule>();
  function ruleOf(key: string): TermRule {
    const known = rules.get(key);
    if (known) return known;
    const given = context[key];
    const object = isObject(given) ? given : {};
    const reverse = object['@reverse'];
    const rule: TermRule = {
      iri: typeof reverse === 'string' ? expand(reverse, vocab) : expand(key, vocab),
      isIri: object['@type'] === '@id' || object['@type'] === '@vocab',
      language: typeof object['@language'] === 'string' ? object['@language'] : language,
      byLanguage: listOf(object['@container']).includes('@language'),
      reverse: typeof reverse === 'string',
    };
    rules.set(key, rule);
    return rule;
  }

  function readNode(node: JsonObject): string {
    const given = Object.entries(node).find(([key]) => expand(key, vocab) === '@id')?.[1];
    const subject = typeof given === 'string' ? expand(given, base) : `_:b${blanks++}`;
    for (const [key, value] of Object.entries(node)) {
      const meaning = key.startsWith('@') ? key : ruleOf(key).iri;
      if (meaning === '@graph' || meaning === '@included') {
        for (const each of listOf(value)) if (isObject(each)) readNode(each);
      } else if (meaning === '@type') {
        for (const each of listOf(value)) {
          if (typeof each !== 'string') continue;
          triples.push({
            subject,
            predicate: `${rdf}type`,
            object: { kind: 'iri', value: expand(each, vocab) },
          });
        }
      } else if (meaning === '@reverse' && isObject(value)) {
        for (const [inner, list] of Object.entries(value))
          for (const each of listOf(list)) add(subject, ruleOf(inner), each, true);
      } else if (!meaning.startsWith('@') && meaning.includes(':')) {
        const rule = ruleOf(key);
        if (rule.byLanguage && isObject(value) && value['@value'] === undefined) {
          for (const [tag, list] of Object.entries(value))
            for (const each of listOf(list))
              if (typeof each === 'string')
                triples.push({
                  subject,
                  predicate: rule.iri,
                  object: { kind: 'text', value: each, language: tag === '@none' ? '' : tag },
                });
        } else for (const each of listOf(value)) add(subject, rule, each, rule.reverse);
      }
    }
    return subject;
  }

  function add(subject: string, rule: TermRule, value: Json, reverse: boolean): void {
    const object = termOf(value, rule);
    if (!object) return;
    if (!reverse) triples.push({ subject, predicate: rule.iri, object });
    else if (object.kind === 'iri') {
      triples.push({
        subject: object.value,
        predicate: rule.iri,
        object: { kind: 'iri', value: subject },
      });
    }
  }

  function termOf(value: Json, rule: TermRule): Term | undefined {
    if (typeof value === 'string') {
      return rule.isIri
        ? { kind: 'iri', value: expand(value, base) }
        : { kind: 'text', value, language: rule.language };
    }
    if (typeof value === 'number' || typeof value === 'boolean') {
      return { kind: 'text', value: String(value), language: '' };
    }
    if (!isObject(value)) return undefined;
    const literal = value['@value'];
    if (literal !== undefined) {
      const tag = value['@language'];
      return {
        kind: 'text',
        value: typeof literal === 'object' ? JSON.stringify(literal) : String(literal),
        language: typeof tag === 'string' ? tag : '',
      };
    }
    return { kind: 'iri', value: readNode(value) };
  }

  for (const node of listOf(file)) if (isObject(node)) readNode(node);
  return { kind: 'read', triples };
}
