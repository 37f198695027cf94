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
export { fitSheet, nextMinuteOf, type FitLine, type NextMinute, type SheetFit } from './sheet/fit';
export {
  proposeLines,
  secondsSavedEachUse,
  worthOfLines,
  type LineProposal,
  type LineWorth,
  type PaperFacts,
} from './sheet/worth';
export {
  measuredSpeed,
  startingWordsPerMinute,
  writingSeconds,
  writtenCharacters,
} from './sheet/writing';
export { compareSheet, type ComparedLine, type SheetComparison } from './sheet/compare';
export { failingLines, keptShare, type FailingLine } from './sheet/failing';
export { foretell, type Foretold } from './roots/foretell';
export { accuracyByWeek, mondayOf, weekOf, type WeekAccuracy } from './trends/weeks';
export { chooseWidth, smoothShares, type SmoothPoint } from './trends/smooth';
export { shrinkRates, type RateGroup, type ShrunkRates } from './trends/shrink';
export { adjustedChances } from './trends/benjamini-hochberg';
export {
  compareRates,
  differenceThatMatters,
  groupOf,
  leastBlocks,
  moreBlocksFor,
  type BlockCount,
  type RateComparison,
} from './trends/compare-rates';
export { changedAnswers, leastChanges, type ChangedAnswers } from './trends/changed-answers';
export { fadeOf, fifthsOf, meanInterval, type MeanInterval } from './trends/pace';
export { settledByWeek, type SettledWeek } from './trends/settled';
export { calibrationBins, expectBlock, type Expectation } from './trends/expected';
export {
  changesNeeded,
  compareAll,
  reviewEnough,
  sleepEnough,
  smallGroup,
  type Comparison,
  type ComparisonId,
  type Comparisons,
  type TrendBlock,
} from './trends/comparisons';
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
export { swellRows, type RowRoom, type RowWish } from './section/swell';
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
