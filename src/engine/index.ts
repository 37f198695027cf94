/** The engine's public door. */
export type {
  EvidenceShare,
  Root,
  SampleOptions,
  SampleProgress,
  TraceConcept,
  TraceDiagnostics,
  TraceItem,
  TraceLog,
  TraceOptions,
  TraceReading,
  TraceResult,
  TraceTotals,
} from './roots/types';
export { traceRoots } from './roots/trace';
export { countNamedCauses, type NamedCount } from './roots/count';
export { sampleRoots, SamplingCancelled } from './roots/sample';
