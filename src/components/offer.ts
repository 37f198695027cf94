import type { Concept } from '../model/concept-map';

/** A concept offered before anything is typed. */
export interface Offer {
  readonly concept: Concept;
  /** What speaks for it, in a few words: "of late". */
  readonly why: string;
}
