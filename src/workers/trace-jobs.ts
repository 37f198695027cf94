/** The jobs of the trace worker, and the log it remembers between them. */
import {
  countNamedCauses,
  traceRoots,
  type Root,
  type TraceLog,
  type TraceResult,
} from '../engine';
import type { JobHandlers } from './serve-jobs';

export type TraceItem = TraceLog['items'][number];
export type TraceConcept = TraceLog['concepts'][number];

/** What changed since the last message; only the first one carries everything. */
export interface TracePatch {
  readonly now: number;
  /** Forget all that was sent before; this patch carries everything. */
  readonly reset: boolean;
  /** Present when the map changed. */
  readonly concepts?: readonly TraceConcept[];
  readonly items: readonly TraceItem[];
  readonly removedItems: readonly string[];
  readonly unitemised: TraceLog['unitemised'];
  readonly readings: TraceLog['readings'];
}

/** A root without its evidence, which is asked for one concept at a time. */
export type RankedRoot = Omit<Root, 'evidence'> & { readonly evidenceCount: number };

export interface CountedConcept {
  readonly conceptId: string;
  readonly count: number;
}

export interface Ranking {
  readonly roots: readonly RankedRoot[];
  /** Concepts by how often they were named as the cause, most first. */
  readonly counted: readonly CountedConcept[];
  readonly slip: number;
  readonly itemCount: number;
  readonly missCount: number;
}

export type Evidence = Root['evidence'];

// A type alias, not an interface: only an alias fits the open `Jobs` record.
export type TraceJobs = {
  trace: { input: TracePatch; output: Ranking };
  evidence: { input: { readonly conceptId: string }; output: Evidence };
};

/** The handlers of one trace worker, sharing the log that patches build up. */
export function traceJobs(): JobHandlers<TraceJobs> {
  const items = new Map<string, TraceItem>();
  let concepts: readonly TraceConcept[] = [];
  let result: TraceResult | undefined;

  return {
    trace(patch) {
      if (patch.reset) items.clear();
      if (patch.concepts) concepts = patch.concepts;
      for (const item of patch.items) items.set(item.id, item);
      for (const id of patch.removedItems) items.delete(id);

      const log: TraceLog = {
        now: patch.now,
        concepts,
        items: [...items.values()],
        unitemised: patch.unitemised,
        readings: patch.readings,
      };
      result = traceRoots(log, { previous: result });
      return {
        roots: result.roots.map(({ evidence, ...root }) => ({
          ...root,
          evidenceCount: evidence.length,
        })),
        counted: countNamedCauses(log),
        slip: result.slip,
        itemCount: items.size + countUnitemised(patch.unitemised),
        missCount: log.items.filter((item) => item.missed).length,
      };
    },

    evidence({ conceptId }) {
      const root = result?.roots.find((candidate) => candidate.conceptId === conceptId);
      return root?.evidence ?? [];
    },
  };
}

function countUnitemised(unitemised: TraceLog['unitemised']): number {
  return unitemised.reduce((sum, block) => sum + block.right + block.missed, 0);
}
