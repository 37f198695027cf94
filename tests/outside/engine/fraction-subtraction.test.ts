/**
 * The engine on real answers: 536 students, 20 fraction items, 8 skills (K. K. Tatsuoka 1984, 1990;
 * Q-matrix of de la Torre & Douglas 2004). The data stand beside the project, not in it; without
 * them these tests are skipped.
 *
 * Published DINA fits give what a skill's lack does to each item; here every student is a
 * candidate with at most 20 items, the skills are the concepts, and an item's topics are the
 * skills it needs. That is far less evidence than the engine is made for, so what is asked is
 * order, not size: gap chances must follow the published picture, and held-out items must be
 * foretold better than by the student's own rate.
 */
import { existsSync, readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { traceRoots, type TraceItem, type TraceLog } from '../../../src/engine/index';

const folder = new URL('../../../../shared/data/fraction-subtraction/', import.meta.url);
const present = existsSync(folder);
if (!present)
  process.stdout.write('fraction-subtraction: skipped, as ../shared/data is not there\n');

function table(name: string): number[][] {
  return readFileSync(new URL(name, folder), 'utf8')
    .trim()
    .split(/\r?\n/)
    .slice(1)
    .map((line) => line.split(',').map(Number));
}

/** Slip and guess of the DINA model on these data by maximum likelihood (two programs agree). */
const guess = [
  0.0298, 0.0164, 0, 0.2236, 0.3005, 0.0994, 0.0251, 0.4445, 0.2973, 0.029, 0.0656, 0.1281, 0.013,
  0.0624, 0.0314, 0.1092, 0.0383, 0.1193, 0.0224, 0.0125,
];
const slip = [
  0.0892, 0.0415, 0.1338, 0.1099, 0.172, 0.0436, 0.1964, 0.1813, 0.2474, 0.2136, 0.082, 0.0406,
  0.3348, 0.0603, 0.1051, 0.1105, 0.1379, 0.1379, 0.2404, 0.157,
];

const skills = Array.from({ length: 8 }, (_, k) => `skill${k + 1}`);

function logOf(
  responses: readonly number[],
  needs: readonly number[][],
  left: (item: number) => boolean,
): TraceLog {
  const items: TraceItem[] = responses.flatMap((right, i) =>
    left(i)
      ? []
      : [
          {
            id: `i${i}`,
            at: 0,
            missed: right === 0,
            topics: skills.filter((_, k) => needs[i]![k] === 1),
            causes: [],
          },
        ],
  );
  const concepts = skills.map((id) => ({ id, systems: [], restsOn: [] }));
  return { now: 0, concepts, items, unitemised: [], readings: [] };
}

/** Posterior chance of lacking each skill under DINA with the published slips and guesses, all classes alike. */
function dinaLacks(responses: readonly number[], needs: readonly number[][]): number[] {
  const lacks = new Array<number>(8).fill(0);
  let total = 0;
  for (let mask = 0; mask < 256; mask++) {
    let likelihood = 1;
    responses.forEach((right, i) => {
      const able = needs[i]!.every((need, k) => need === 0 || ((mask >> k) & 1) === 1);
      const chance = able ? 1 - slip[i]! : guess[i]!;
      likelihood *= right === 1 ? chance : 1 - chance;
    });
    total += likelihood;
    for (let k = 0; k < 8; k++) if (((mask >> k) & 1) === 0) lacks[k]! += likelihood;
  }
  return total === 0 ? lacks : lacks.map((sum) => sum / total);
}

/** Area under the curve: the chance that a pair of one of each kind is ordered rightly, ties half. */
function areaUnder(scores: readonly number[], positive: readonly boolean[]): number {
  let pairs = 0;
  let won = 0;
  scores.forEach((a, i) => {
    if (!positive[i]) return;
    scores.forEach((b, j) => {
      if (positive[j]) return;
      pairs += 1;
      if (a > b) won += 1;
      else if (a === b) won += 0.5;
    });
  });
  return won / pairs;
}

describe.skipIf(!present)('fraction subtraction', () => {
  const responses = present ? table('responses.csv') : [];
  const needs = present ? table('q-matrix.csv') : [];

  test('the data are the ones meant', () => {
    expect(responses).toHaveLength(536);
    const scores = responses.map((row) => row.reduce((sum, x) => sum + x, 0));
    expect(scores.reduce((sum, x) => sum + x, 0) / 536).toBeCloseTo(10.677239, 6);
    expect(scores.filter((score) => score === 20)).toHaveLength(30);
  });

  test('gap chances follow the published DINA picture', () => {
    // One in four students, every skill. Compared where DINA is all but sure either way: there
    // the data decide, not its starting classes.
    const chances: number[] = [];
    const lacking: boolean[] = [];
    for (let s = 0; s < responses.length; s += 4) {
      const lacks = dinaLacks(responses[s]!, needs);
      const result = traceRoots(logOf(responses[s]!, needs, () => false));
      skills.forEach((id, k) => {
        if (lacks[k]! > 0.1 && lacks[k]! < 0.9) return;
        chances.push(result.roots.find((root) => root.conceptId === id)!.gapChance);
        lacking.push(lacks[k]! >= 0.9);
      });
    }
    const area = areaUnder(chances, lacking);
    process.stdout.write(
      `fraction-subtraction: gap chances order ${lacking.length} skills of 134 students as DINA does, area ${area.toFixed(3)}\n`,
    );
    expect(area).toBeGreaterThan(0.8);
  });

  test('held-out items are foretold better than by the student’s own rate', () => {
    // Every fifth item is held out in turn, for one student in four.
    let own = 0;
    let engine = 0;
    let count = 0;
    for (let s = 0; s < responses.length; s += 4) {
      for (let fold = 0; fold < 5; fold++) {
        const left = (item: number): boolean => item % 5 === fold;
        const log = logOf(responses[s]!, needs, left);
        const result = traceRoots(log);
        const missed = log.items.filter((item) => item.missed).length;
        // One miss and one right added, so that no rate is 0 or 1.
        const rate = (missed + 1) / (log.items.length + 2);
        responses[s]!.forEach((right, i) => {
          if (!left(i)) return;
          const chance = result.missChance({ topics: skills.filter((_, k) => needs[i]![k] === 1) });
          const loss = (p: number): number => -Math.log(right === 0 ? p : 1 - p);
          own += loss(rate);
          engine += loss(Math.min(1 - 1e-9, chance));
          count += 1;
        });
      }
    }
    process.stdout.write(
      `fraction-subtraction: log loss of ${count} held-out items, engine ${(engine / count).toFixed(4)}, own rate ${(own / count).toFixed(4)} nats\n`,
    );
    expect(engine).toBeLessThan(own);
  });
});
