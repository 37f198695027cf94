/** What the picture of the section is made of, and what its signs mean. */
import type { Section } from '../engine';

/** A concept as it is drawn. */
export interface DrawnConcept {
  readonly id: string;
  readonly name: string;
  readonly traced: number;
  /** In [0, 1]. */
  readonly gapChance: number;
  /** The latest missing piece written down for it; empty for none. */
  readonly missingPiece: string;
}

export interface Picture {
  readonly section: Section;
  /** In the order of the section's bars. */
  readonly concepts: readonly DrawnConcept[];
  /** Heads of the columns, from left to right. */
  readonly heads: readonly string[];
}

/** Traced misses from which a bar has one, two and three rings. */
export const ringSteps = [1, 4, 10] as const;

/** How many rings a bar has: 0 to 3. */
export function ringsOf(traced: number): number {
  return ringSteps.filter((step) => traced >= step).length;
}

/** The share of a bar that is filled: its traced misses against the most of any. */
export function fillShare(traced: number, most: number): number {
  return most > 0 ? Math.min(1, traced / most) : 0;
}

/** Gap chances from which a bar's edge is drawn broken, and whole and heavy. */
export const edgeSteps = { broken: 0.5, heavy: 0.9 } as const;

export type Edge = 'thin' | 'broken' | 'heavy';

export function edgeOf(gapChance: number): Edge {
  if (gapChance >= edgeSteps.heavy) return 'heavy';
  return gapChance >= edgeSteps.broken ? 'broken' : 'thin';
}
