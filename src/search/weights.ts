/**
 * What a word weighs in a field of a document.
 *
 * Source: Robertson and Zaragoza 2009, "The Probabilistic Relevance Framework: BM25 and
 * Beyond", Foundations and Trends in Information Retrieval 3(4), in the form and with the
 * constants of lunr 2.3.9 (k1 1.2, b 0.75, three decimals).
 */
export const k1 = 1.2;
const b = 0.75;

/** What a field's words weigh: title, text, links. */
export const fieldBoosts = [2.5, 1, 0.6] as const;

/** How telling a word is. `holding`: documents that hold it, fields counted apart, as lunr does. */
export function idfOf(documentCount: number, holding: number): number {
  return Math.log(1 + Math.abs((documentCount - holding + 0.5) / (holding + 0.5)));
}

/** The part of the weight that follows from a field's length against the average. */
export function lengthNorm(length: number, average: number): number {
  return k1 * (1 - b + b * (length / average));
}

/** @param norm from `lengthNorm` */
export function weightOf(idf: number, count: number, norm: number, boost: number): number {
  const weight = (idf * ((k1 + 1) * count)) / (norm + count);
  return Math.round(weight * boost * 1000) / 1000;
}
