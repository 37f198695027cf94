/**
 * The branches of an outside vocabulary, each with its place on the human map.
 *
 * Source of the branch names: Disease Ontology, subset DO_AGR_slim, release
 * 2025-06-27 (CC0): all its terms but "syndrome", which is a kind of label. Which
 * concept or system answers to each is our judgement.
 */
import { describe, expect, it } from 'vitest';
import { readSeedMap } from './map-files';

const map = readSeedMap('human');

/** Branch, and the systems in which its diseases are seen. */
const anatomical: readonly (readonly [string, readonly string[]])[] = [
  ['cardiovascular system disease', ['cardiovascular']],
  ['respiratory system disease', ['respiratory']],
  ['thoracic disease', ['cardiovascular', 'respiratory']],
  ['urinary system disease', ['renal']],
  ['gastrointestinal system disease', ['gastrointestinal', 'hepatobiliary']],
  ['endocrine system disease', ['endocrine']],
  ['reproductive system disease', ['reproductive']],
  ['central nervous system disease', ['nervous']],
  ['peripheral nervous system disease', ['nervous']],
  ['sensory system disease', ['nervous']],
  ['disease of mental health', ['psychiatric']],
  ['musculoskeletal system disease', ['musculoskeletal']],
  ['integumentary system disease', ['skin']],
  ['hematopoietic system disease', ['blood']],
  ['immune system disease', ['immune']],
];

/** Branch, and concepts without which it could not be studied. */
const byCause: readonly (readonly [string, readonly string[]])[] = [
  ['bacterial infectious disease', ['bacterial-structure', 'gram-positive-cocci', 'mycobacteria']],
  ['viral infectious disease', ['virus-structure-replication', 'herpesviruses']],
  ['fungal infectious disease', ['fungal-structure', 'opportunistic-fungi', 'systemic-mycoses']],
  ['parasitic infectious disease', ['helminths', 'protozoa-blood', 'ectoparasites']],
  ['disease of metabolism', ['inborn-errors-pattern', 'diabetes-mellitus', 'urea-cycle']],
  ['monogenic disease', ['inheritance-patterns', 'cystic-fibrosis']],
  ['polygenic disease', ['polygenic-inheritance']],
  ['chromosomal disease', ['autosomal-trisomies', 'sex-chromosomes', 'chromosome-structure']],
  ['physical disorder (congenital)', ['malformation-types', 'congenital-heart-left-right']],
  ['benign neoplasm', ['neoplasia-hallmarks']],
  ['pre-malignant neoplasm', ['neoplasia-hallmarks', 'colorectal-neoplasia']],
  ['cancer', ['invasion-metastasis', 'lung-cancer', 'leukaemias', 'breast-disease']],
];

describe('the human map beside the branches of the Disease Ontology', () => {
  it.each(anatomical)('has pathology seen in the systems of "%s"', (_, systems) => {
    for (const system of systems) {
      const seen = map.concepts.filter(
        (concept) =>
          concept.systems.some((id) => id === system) &&
          concept.disciplines.some((id) => ['pathology', 'behavioural'].includes(id)),
      );
      // Ten is a handful of sittings: fewer would be a system in name only.
      expect(seen.length, system).toBeGreaterThanOrEqual(10);
    }
  });

  it.each(byCause)('has the concepts under "%s"', (_, ids) => {
    const onMap = new Set<string>(map.concepts.map((concept) => concept.id));
    expect(ids.filter((id) => !onMap.has(id))).toEqual([]);
  });
});
