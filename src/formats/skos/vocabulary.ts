/**
 * SKOS and the few terms we add, and how the map is said in them.
 *
 * Source: W3C, "SKOS Simple Knowledge Organization System Reference", 2009.
 *
 * | map | file |
 * | --- | --- |
 * | discipline | a top concept of the scheme |
 * | organ system | a top concept of the scheme, marked `hyp:OrganSystem` |
 * | belongs to | `skos:broader` to the discipline: a concept is part of its field |
 * | seen in | `hyp:seenIn`, a sub-property of `skos:related` |
 * | rests on | `hyp:restsOn`, a sub-property of `skos:related` |
 *
 * *Rests on* is no `skos:broader`: "renal compensation" is not a kind or a part of
 * "bicarbonate buffer". It is an associative relation with a direction, which SKOS
 * allows as a sub-property of `skos:related` (section 8.6.3 of the Reference).
 */
export const skos = 'http://www.w3.org/2004/02/skos/core#';
export const rdf = 'http://www.w3.org/1999/02/22-rdf-syntax-ns#';
export const rdfs = 'http://www.w3.org/2000/01/rdf-schema#';
export const xsd = 'http://www.w3.org/2001/XMLSchema#';
export const owl = 'http://www.w3.org/2002/07/owl#';
/** Names need no address that answers: a `urn` claims none. */
export const hyp = 'urn:hypocentre:terms#';
export const ours = 'urn:hypocentre:map:';

export type Term =
  | { readonly kind: 'iri'; readonly value: string }
  | {
      readonly kind: 'text';
      readonly value: string;
      readonly language: string;
      readonly type?: string;
    };

/** One statement; a blank node is an iri that begins with "_:". */
export interface Triple {
  readonly subject: string;
  readonly predicate: string;
  readonly object: Term;
}

export const iri = (value: string): Term => ({ kind: 'iri', value });
export const text = (value: string, language = '', type?: string): Term => ({
  kind: 'text',
  value,
  language,
  type,
});
