/** Maximum likelihood for DINA and DINO by EM, over many students. */
import { isOpen, skillClasses, type Gate, type GateKind } from './gate';

export interface GateFit {
  readonly gates: readonly Gate[];
  /** Share of each distinguishable class; with `mergeClasses` false, of each class. */
  readonly classShares: readonly number[];
  /** ln likelihood of the returned gates and shares. */
  readonly logLikelihood: number;
  readonly iterations: number;
  readonly converged: boolean;
}

export interface FitSetup {
  readonly kind: GateKind;
  /** Students by items; true = right. */
  readonly answers: readonly (readonly boolean[])[];
  /** Items by skills. */
  readonly needs: readonly (readonly boolean[])[];
  readonly start: Gate;
  readonly mostIterations: number;
  /** Settled when no g, s or share moves by more in a pass. */
  readonly tolerance: number;
  /**
   * Treat classes that open the same items as one. The data cannot tell them apart, and under a
   * saturated class distribution the sum of their shares follows the same path.
   */
  readonly mergeClasses: boolean;
}

/**
 * Fits g and s of each item and the class shares (saturated: every class its own share, even at
 * the start).
 *
 * E: the posterior of each student's class. M: shares are its means, g and s the shares of
 * expected right answers among shut, and of wrong ones among open.
 */
export function fitGates(setup: FitSetup): GateFit {
  const { kind, needs, start, mostIterations, tolerance } = setup;
  const patterns = countPatterns(setup.answers);
  const classes = openItemsOfClasses(kind, needs, setup.mergeClasses);
  const classTotal = classes.reduce((sum, { size }) => sum + size, 0);
  let shares = classes.map(({ size }) => size / classTotal);
  let gates: Gate[] = needs.map(() => start);
  let iterations = 0;
  let moved = Number.POSITIVE_INFINITY;

  while (iterations < mostIterations && moved > tolerance) {
    const { shareSums, seen } = expect(classes, patterns, shares, gates);
    const nextShares = shareSums.map((sum) => sum / setup.answers.length);
    const nextGates = seen.map(({ open, openWrong, shut, shutRight }) => ({
      guess: shut > 0 ? shutRight / shut : start.guess,
      slip: open > 0 ? openWrong / open : start.slip,
    }));
    moved = Math.max(
      ...nextShares.map((share, c) => Math.abs(share - shares[c]!)),
      ...nextGates.map((gate, i) => Math.abs(gate.guess - gates[i]!.guess)),
      ...nextGates.map((gate, i) => Math.abs(gate.slip - gates[i]!.slip)),
    );
    shares = nextShares;
    gates = nextGates;
    iterations++;
  }
  return {
    gates,
    classShares: shares,
    logLikelihood: expect(classes, patterns, shares, gates).logLikelihood,
    iterations,
    converged: moved <= tolerance,
  };
}

interface Pattern {
  /** 1 = right. Bytes, not booleans, since the E step is run thousands of times. */
  readonly answers: Uint8Array;
  readonly count: number;
}

interface SkillClass {
  /** Item -> 1 if this class opens it. */
  readonly opens: Uint8Array;
  /** How many classes it stands for. */
  readonly size: number;
}

function countPatterns(answers: readonly (readonly boolean[])[]): Pattern[] {
  const counts = new Map<string, Pattern>();
  for (const row of answers) {
    const key = row.map(Number).join('');
    const count = (counts.get(key)?.count ?? 0) + 1;
    counts.set(key, { answers: Uint8Array.from(row, Number), count });
  }
  return [...counts.values()];
}

function openItemsOfClasses(
  kind: GateKind,
  needs: readonly (readonly boolean[])[],
  merge: boolean,
): SkillClass[] {
  const classes = skillClasses(needs[0]!.length).map((held) => ({
    opens: Uint8Array.from(needs, (row) => Number(isOpen(kind, held, row))),
    size: 1,
  }));
  if (!merge) return classes;
  const merged = new Map<string, SkillClass>();
  for (const { opens } of classes) {
    const key = opens.join('');
    merged.set(key, { opens, size: (merged.get(key)?.size ?? 0) + 1 });
  }
  return [...merged.values()];
}

/** The E step: expected students of each class, and expected answers by item and gate. */
function expect(
  classes: readonly SkillClass[],
  patterns: readonly Pattern[],
  shares: readonly number[],
  gates: readonly Gate[],
) {
  const shareSums = classes.map(() => 0);
  const seen = gates.map(() => ({ open: 0, openWrong: 0, shut: 0, shutRight: 0 }));
  let logLikelihood = 0;
  // Chance of the answer at each gate: [item][shut wrong, shut right, open wrong, open right].
  const answerChance = gates.flatMap(({ guess, slip }) => [1 - guess, guess, slip, 1 - slip]);
  const joint = new Float64Array(classes.length);
  const openOf = new Float64Array(gates.length);
  for (const { answers, count } of patterns) {
    let total = 0;
    for (let c = 0; c < classes.length; c++) {
      const opens = classes[c]!.opens;
      let product = shares[c]!;
      for (let item = 0; item < opens.length; item++) {
        product *= answerChance[4 * item + 2 * opens[item]! + answers[item]!]!;
      }
      joint[c] = product;
      total += product;
    }
    logLikelihood += count * Math.log(total);
    // Expected students with this pattern who open each item.
    openOf.fill(0);
    for (let c = 0; c < classes.length; c++) {
      const opens = classes[c]!.opens;
      const weight = (count * joint[c]!) / total;
      shareSums[c]! += weight;
      for (let item = 0; item < opens.length; item++) openOf[item]! += weight * opens[item]!;
    }
    seen.forEach((cell, item) => {
      const open = openOf[item]!;
      const shut = count - open;
      cell.open += open;
      cell.shut += shut;
      if (answers[item] === 1) cell.shutRight += shut;
      else cell.openWrong += open;
    });
  }
  return { shareSums, seen, logLikelihood };
}
