/**
 * DINA and DINO spelt out: every class of skills listed, every chance a plain product.
 *
 * DINA (Haertel 1989; Junker & Sijtsma 2001): an item opens when *all* needed skills are held.
 * DINO (Templin & Henson 2006): when *any* is. An open item is answered right with chance 1 - s,
 * a shut one with chance g.
 */

export type GateKind = 'all' | 'any';

/** The chance rules of one item. */
export interface Gate {
  readonly guess: number;
  readonly slip: number;
}

/** All 2^K classes of K skills; the first skill is the leftmost, as in "10" for the first only. */
export function skillClasses(skillCount: number): boolean[][] {
  return Array.from({ length: 2 ** skillCount }, (_, code) =>
    Array.from({ length: skillCount }, (__, k) => ((code >> (skillCount - 1 - k)) & 1) === 1),
  );
}

/** Whether the class opens an item that needs the marked skills. */
export function isOpen(
  kind: GateKind,
  held: readonly boolean[],
  needs: readonly boolean[],
): boolean {
  const heldOfNeeded = held.filter((_, k) => needs[k]);
  return kind === 'all' ? heldOfNeeded.every(Boolean) : heldOfNeeded.some(Boolean);
}

/** Chance that a class gives these answers (true = right). */
export function answersChance(
  kind: GateKind,
  held: readonly boolean[],
  answers: readonly boolean[],
  needs: readonly (readonly boolean[])[],
  gates: readonly Gate[],
): number {
  return answers.reduce((product, right, item) => {
    const { guess, slip } = gates[item]!;
    const rightChance = isOpen(kind, held, needs[item]!) ? 1 - slip : guess;
    return product * (right ? rightChance : 1 - rightChance);
  }, 1);
}

/** Bayes over all classes: chance of the answers, and of each class given them. */
export function classPosterior(
  kind: GateKind,
  answers: readonly boolean[],
  needs: readonly (readonly boolean[])[],
  gates: readonly Gate[],
  classShares: readonly number[],
): { chance: number; posterior: number[] } {
  const joint = skillClasses(needs[0]!.length).map(
    (held, c) => classShares[c]! * answersChance(kind, held, answers, needs, gates),
  );
  const chance = joint.reduce((a, b) => a + b, 0);
  return { chance, posterior: joint.map((part) => part / chance) };
}
