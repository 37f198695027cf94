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
export {
  planReadings,
  type PlannedReading,
  type ReadingPlan,
  type ReadingPlanInput,
} from './reading/plan';
export {
  generalPace,
  generalWordsAMinute,
  measurePace,
  readingMinutes,
  type ReadingPace,
} from './reading/minutes';
export { compareSince, type SinceThen } from './reading/since';
export { bestFirstGapDays } from './looks/gap';
export {
  holdsNow,
  nextLook,
  finalWeekDays,
  type LookOutcome,
  type LookSubject,
} from './looks/schedule';
export { levelDay, lookUse, type DueLook, type LevelledDay } from './looks/level';
export { mixSystems } from './looks/mix';
export {
  simulateSteps,
  simulateToPaper,
  type Simulation,
  type SimulationInput,
} from './looks/simulate';
export { planDay, quietMinutesBeforeBed, type DayPlan, type DayTask } from './day/plan-day';
export { planWeek, type Week, type WeekDay } from './day/week';
export { secondsALook } from './looks/pace';
