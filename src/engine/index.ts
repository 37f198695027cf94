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
} from './roots/tracing';
export { traceRoots } from './roots/trace';
export { countNamedCauses, type NamedCount } from './roots/count';
export {
  chooseHalfLife,
  leastItemsForHalfLife,
  type HalfLifeChoice,
  type HalfLifeLoss,
} from './roots/half-life';
export { explainRoot, type RootExplanation, type ExplainedMiss } from './roots/explain';
export { sampleRoots, SamplingCancelled } from './roots/sample';
export { defaultHalfLifeDays, defaultParameters, type TraceParameters } from './roots/parameters';
export { findReach, findWay, turned, type Neighbours } from './graph/reach';
export {
  layOutSection,
  noSystem,
  type Section,
  type SectionBand,
  type SectionBar,
  type SectionConcept,
} from './section/lay-out';
export { placeLabels, type LabelBox } from './section/place-labels';
export { stepFrom, type WalkStep } from './section/walk';
export { findMissingLinks, type MissingLink, type NamedMiss } from './map-help/missed-together';
export {
  findBroadConcepts,
  findImpliedLinks,
  findNearNames,
  type BroadConcept,
  type ImpliedLink,
  type NearNames,
} from './map-help/tidy';
