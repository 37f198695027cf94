/**
 * Whether the strength of links is worth learning: the quick pass under each of several strengths for
 * all links, on the candidates that are reported, and under the one with which each log foretold itself
 * best. The generator needs a concept below with a chance of .45 a link.
 */
import { foretell, traceRoots, type TraceLog } from '../../../src/engine/index';
import { defaultStrength } from '../../../src/model/concept-map';
import type { Bench } from '../bench';
import { evaluate, type Score } from './evaluate';
import { drawCandidate, type Candidate } from './generator/candidate';
import { caseOf, type Case } from './generator/log';
import { methods, readRoots, type Method } from './methods';
import { summarise } from './summary';
import { variants } from './variants';

const seeds = [101, 102, 103, 104, 105, 106, 107, 108];
const strengths = [0.15, 0.25, 0.35, 0.45, 0.55, 0.7];
const groups = [
  ['base', 400],
  ['base', 1_600],
  ['base', 4_800],
  ['no-labels', 1_600],
  ['missing-links', 1_600],
  ['wrong-topics', 1_600],
  ['misses-only', 1_600],
] as const;

const withStrength = (log: TraceLog, strength: number): TraceLog => ({
  ...log,
  concepts: log.concepts.map((concept) => ({
    ...concept,
    restsOn: concept.restsOn.map(({ id }) => ({ id, strength })),
  })),
});

/** Mean of -ln of the chance given to what happened; undefined where nothing can be foretold. */
function lossOf(log: TraceLog): number | undefined {
  const { kind, items } = foretell(log);
  if (kind !== 'foretold') return undefined;
  const losses = items.map(({ chance, right }) => -Math.log(right ? chance : 1 - chance));
  return losses.reduce((sum, loss) => sum + loss, 0) / losses.length;
}

interface Row {
  readonly label: string;
  readonly scores: Score[];
  readonly losses: (number | undefined)[];
}

const rowOf = (label: string): Row => ({ label, scores: [], losses: [] });
const named = (name: string) => methods.find((method) => method.name === name)!;
const quickAt = (log: TraceLog): Method => ({
  name: 'quick',
  title: 'quick pass',
  run: () => readRoots(traceRoots(log), log),
});

async function addCandidate(
  rows: readonly Row[],
  learned: Row,
  given: Case,
  candidate: Candidate,
): Promise<void> {
  for (const [k, row] of rows.entries()) {
    const log = withStrength(given.log, strengths[k]!);
    row.scores.push(await evaluate(quickAt(log), given, candidate));
    row.losses.push(lossOf(log));
  }
  const last = rows.map(({ losses }) => losses.at(-1) ?? Infinity);
  const least = Math.min(...last);
  // Where nothing can be foretold there is nothing to learn from.
  const best = least < Infinity ? last.indexOf(least) : strengths.indexOf(defaultStrength);
  learned.scores.push(rows[best]!.scores.at(-1)!);
  learned.losses.push(rows[best]!.losses.at(-1));
}

async function print(): Promise<void> {
  for (const [name, size] of groups) {
    const { title, recipe, logging } = variants.find((variant) => variant.name === name)!;
    const rows = strengths.map((strength) => rowOf(strength.toFixed(2)));
    const learned = rowOf('foretold best');
    const counting: Score[] = [];
    const ceiling: Score[] = [];
    for (const seed of seeds) {
      const candidate = drawCandidate(recipe, seed);
      const given = caseOf(candidate, size, logging);
      counting.push(await evaluate(named('count'), given, candidate));
      ceiling.push(await evaluate(named('ceiling'), given, candidate));
      await addCandidate(rows, learned, given, candidate);
    }
    console.log(`  ${title}; ${size} items`);
    console.log(
      '  strength        share of the way   Brier score   worst bin   loss, nats an item',
    );
    for (const { label, scores, losses } of [...rows, learned]) {
      const { share, shareError, brier, worstBin } = summarise(scores, counting, ceiling);
      const loss = losses.includes(undefined)
        ? '–'
        : (losses.reduce<number>((sum, each) => sum + each!, 0) / losses.length).toFixed(4);
      console.log(
        `  ${label.padEnd(14)}${`${share.toFixed(2)} ± ${shareError.toFixed(2)}`.padStart(18)}` +
          `${brier!.toFixed(4).padStart(14)}${worstBin!.toFixed(3).padStart(12)}${loss.padStart(21)}`,
      );
    }
  }
}

export const benches: readonly Bench[] = [
  {
    name: 'roots: the quick pass under other strengths of links',
    repeats: 1,
    warmups: 0,
    prepare: () => ({
      data: `seeds ${seeds[0]}-${seeds.at(-1)}; ${defaultStrength} is the default`,
      ours: { label: 'all of it', run: print },
    }),
  },
];
