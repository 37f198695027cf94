/** The columns of the benchmark: every way of ranking, by name. */
import {
  sampleRoots,
  traceRoots,
  type TraceLog,
  type TraceResult,
} from '../../../src/engine/index';
import { conceptIndex, type Case } from './generator/log';
import { countNamed, countRolledUp } from './peers/counting';
import { fitDino } from './peers/dino';
import { gatedItems, type DiagnosisFit } from './peers/gated-items';
import { readItemTable } from './peers/item-table';
import { fitNida } from './peers/nida';
import { testOverRepresentation } from './peers/over-representation';
import { shrunkTopicExcess, shrunkTopicRates } from './peers/topic-rate';

/** What a method says about each concept, by its place in the map. */
export interface MethodResult {
  /** Largest first is the ranking. */
  readonly scores: Float64Array;
  readonly gapChances?: Float64Array;
  /** 90 % intervals of the fault rate. */
  readonly faultIntervals?: readonly (readonly [number, number])[];
  /** 90 % intervals of the fault rate, were each concept a gap. */
  readonly gapFaultIntervals?: readonly (readonly [number, number])[];
  /** Which concepts it calls gaps, where it says so in other words than a chance. */
  readonly calledGaps?: readonly boolean[];
  /** False where the method says that it did not settle. */
  readonly settled?: boolean;
}

export interface Method {
  readonly name: string;
  readonly title: string;
  /** All but the ceiling read nothing of the case but its log. */
  readonly run: (given: Case) => MethodResult | Promise<MethodResult>;
}

/** Sampler seed: any fixed number; it is not the candidate's. */
const samplerSeed = 7;

export const methods: readonly Method[] = [
  { name: 'count', title: 'count', run: ({ log }) => ({ scores: countNamed(log) }) },
  {
    name: 'roll-up',
    title: 'roll-up',
    run: ({ log }) => ({ scores: countRolledUp(readItemTable(log)) }),
  },
  {
    name: 'topic-rate',
    title: 'topic rate',
    run: ({ log }) => ({ scores: shrunkTopicRates(readItemTable(log)) }),
  },
  {
    name: 'topic-excess',
    title: 'topic excess',
    run: ({ log }) => ({ scores: shrunkTopicExcess(readItemTable(log)) }),
  },
  {
    name: 'over-represented',
    title: 'over-repr.',
    run: ({ log }) => {
      const { pValues, adjusted } = testOverRepresentation(readItemTable(log));
      // By the raw p-value, since the adjusted one keeps its order but ties many; called a gap at
      // a rate of false discoveries of 0.05.
      return {
        scores: Float64Array.from(pValues, (pValue) => -pValue),
        calledGaps: adjusted.map((pValue) => pValue <= 0.05),
      };
    },
  },
  { name: 'dino', title: 'DINO', run: ({ log }) => runDiagnosis(fitDino, log) },
  { name: 'nida', title: 'NIDA', run: ({ log }) => runDiagnosis(fitNida, log) },
  { name: 'quick', title: 'quick pass', run: ({ log }) => readRoots(traceRoots(log), log) },
  {
    name: 'sampler',
    title: 'sampler',
    run: async ({ log }) => readRoots(await sampleRoots(log, { seed: samplerSeed }), log),
  },
  {
    name: 'ceiling',
    title: 'ceiling',
    run: ({ trueCauseCounts }) => ({ scores: trueCauseCounts }),
  },
];

/** Not run unless asked for: a second reading of the topic rates, which ranks less well. */
export const methodsLeftOut: ReadonlySet<string> = new Set(['topic-excess']);

/** Links below the topic that the Q-matrix holds: all that the method itself looks at. */
const diagnosisLinks = 3;

function runDiagnosis(fit: typeof fitDino | typeof fitNida, log: TraceLog): MethodResult {
  const table = readItemTable(log);
  const fitted: DiagnosisFit = fit(gatedItems(table, diagnosisLinks), table.conceptCount);
  return { scores: fitted.avoidable, gapChances: fitted.gapChances };
}

/** A trace result by place in the map, ranked as it ranks itself. */
export function readRoots(result: TraceResult, log: TraceLog): MethodResult {
  const scores = new Float64Array(log.concepts.length);
  const gapChances = new Float64Array(log.concepts.length);
  const faultIntervals = new Array<readonly [number, number]>(log.concepts.length);
  const gapFaultIntervals = new Array<readonly [number, number]>(log.concepts.length);
  result.roots.forEach((root, place) => {
    const concept = conceptIndex(root.conceptId);
    // The order of `roots` is the ranking under test, not any one of its numbers.
    scores[concept] = -place;
    gapChances[concept] = root.gapChance;
    faultIntervals[concept] = root.faultInterval;
    gapFaultIntervals[concept] = root.gapFaultInterval;
  });
  return {
    scores,
    gapChances,
    faultIntervals,
    gapFaultIntervals,
    settled: result.diagnostics.converged,
  };
}
