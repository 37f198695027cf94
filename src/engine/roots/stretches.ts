/** A log cut into stretches, each to be foretold from what lies before it. */
import type { TraceItem, TraceLog } from './tracing';

/** Stretches that are foretold; each costs a quick pass for every way of foretelling. */
const mostStretches = 10;
/** The first part only teaches. */
const firstPart = 0.3;

/** Cuts sorted items into stretches; items of one time stay together. */
export function stretchesOf(
  items: readonly TraceItem[],
): { before: readonly TraceItem[]; stretch: readonly TraceItem[]; at: number }[] {
  const from = Math.floor(items.length * firstPart);
  const size = Math.max(1, Math.ceil((items.length - from) / mostStretches));
  const stretches: { before: readonly TraceItem[]; stretch: readonly TraceItem[]; at: number }[] =
    [];
  let start = from;
  while (start > 0 && items[start - 1]!.at === items[start]!.at) start -= 1;
  while (start < items.length) {
    let end = Math.min(items.length, start + size);
    while (end < items.length && items[end]!.at === items[end - 1]!.at) end += 1;
    if (start > 0)
      stretches.push({
        before: items.slice(0, start),
        stretch: items.slice(start, end),
        at: items[start]!.at,
      });
    start = end;
  }
  return stretches;
}

/** The log as it stood before a time. */
export function logBefore(log: TraceLog, items: readonly TraceItem[], at: number): TraceLog {
  return {
    now: at,
    concepts: log.concepts,
    items,
    unitemised: log.unitemised.filter((each) => each.at < at),
    readings: log.readings.filter((each) => each.at < at),
  };
}
