/** Lines that keep failing in rehearsal: they come up in second looks. */

export interface RehearsedLines {
  readonly at: number;
  readonly lines: readonly { readonly line: string; readonly share: number }[];
}

export interface FailingLine {
  readonly line: string;
  /** Times it was not all there among its latest three. */
  readonly failures: number;
  /** Its latest rehearsals that were looked at: two or three. */
  readonly rehearsals: number;
  /** How much of it was there last time, 0 to 1. */
  readonly lastShare: number;
  /** When it failed last. */
  readonly failedAt: number;
}

/** Below this much of a line it was not there: one wrong number among ten words is a failure. */
export const keptShare = 0.95;
const latestLooked = 3;
const leastFailures = 2;

/**
 * Lines missing at least twice among their latest three rehearsals, the last one included; most
 * failures first, then the least kept last time. A line that was there last time has recovered.
 */
export function failingLines(rehearsals: readonly RehearsedLines[]): FailingLine[] {
  const shares = new Map<string, { at: number; share: number }[]>();
  for (const { at, lines } of [...rehearsals].sort((a, b) => b.at - a.at)) {
    for (const { line, share } of lines) {
      const list = shares.get(line);
      if (list) list.push({ at, share });
      else shares.set(line, [{ at, share }]);
    }
  }
  const failing: FailingLine[] = [];
  for (const [line, all] of shares) {
    const latest = all.slice(0, latestLooked);
    const last = latest[0];
    const failures = latest.filter(({ share }) => share < keptShare).length;
    if (!last || last.share >= keptShare || failures < leastFailures) continue;
    const { share: lastShare, at: failedAt } = last;
    failing.push({ line, failures, rehearsals: latest.length, lastShare, failedAt });
  }
  return failing.sort(
    (a, b) => b.failures - a.failures || a.lastShare - b.lastShare || (a.line < b.line ? -1 : 1),
  );
}
