/** What evidence of a given age still counts, and which window of time it falls in. */
import type { TraceLog } from './tracing';
import { agesDays, windowBefore, windowNow, windowOlder } from './compiled';

const msPerDay = 86_400_000;

/** Time as the log's evidence sees it. */
export interface EvidenceClock {
  /** 2^(-age / half-life), in (0, 1]; evidence from after `now` counts in full. */
  weightAt(at: number): number;
  windowOf(at: number): number;
  /** Which of the spans between `agesDays` an age falls in, 0 the youngest. */
  ageSpanOf(at: number): number;
  /** Shape (concepts,): when each concept was last read; -Infinity for never. */
  readonly lastRead: Float64Array;
  readonly anyRead: boolean;
}

/**
 * The clock of a log.
 *
 * @throws {RangeError} naming a reading of an unknown concept or at no time
 */
export function evidenceClock(
  log: TraceLog,
  indexOf: ReadonlyMap<string, number>,
  halfLifeDays: number,
  trendWindowDays: number,
): EvidenceClock {
  const lastRead = new Float64Array(indexOf.size).fill(-Infinity);
  log.readings.forEach((reading, i) => {
    if (!Number.isFinite(reading.at))
      throw new RangeError(`traceRoots: got at = ${reading.at} for readings[${i}]; need a time`);
    // A reading dated after `now` has not been done yet.
    if (reading.at > log.now) return;
    for (const id of reading.concepts) {
      const concept = indexOf.get(id);
      if (concept === undefined)
        throw new RangeError(`traceRoots: readings[${i}] covers "${id}"; need the id of a concept`);
      if (reading.at > lastRead[concept]!) lastRead[concept] = reading.at;
    }
  });

  const { now } = log;
  const perMs = halfLifeDays === Infinity ? 0 : Math.LN2 / (halfLifeDays * msPerDay);
  const windowMs = trendWindowDays * msPerDay;
  let lastAt = NaN;
  let lastWeight = 1;
  let lastSpan = 0;
  let lastSpanAt = NaN;
  return {
    weightAt(at) {
      // Items of a block share their time.
      if (at !== lastAt) {
        lastAt = at;
        lastWeight = at >= now ? 1 : Math.exp((at - now) * perMs);
      }
      return lastWeight;
    },
    ageSpanOf(at) {
      if (at !== lastSpanAt) {
        lastSpanAt = at;
        const days = (now - at) / msPerDay;
        lastSpan = 0;
        while (lastSpan < agesDays.length && days >= agesDays[lastSpan]!) lastSpan += 1;
      }
      return lastSpan;
    },
    windowOf(at) {
      const age = now - at;
      if (age < windowMs) return windowNow;
      return age < 2 * windowMs ? windowBefore : windowOlder;
    },
    lastRead,
    anyRead: lastRead.some((at) => at > -Infinity),
  };
}
