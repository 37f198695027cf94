/** The best plan by trying every set of readings: for a dozen or so. */
export interface PlainReading {
  readonly id: string;
  readonly minutes: number;
  readonly covers: readonly { readonly concept: string; readonly degree: number }[];
}

/** What a set is worth, straight from the definition. */
export function plainGain(
  set: readonly PlainReading[],
  worth: ReadonlyMap<string, number>,
): number {
  let sum = 0;
  for (const [concept, value] of worth) {
    let missed = 1;
    for (const { covers } of set)
      for (const cover of covers) if (cover.concept === concept) missed *= 1 - cover.degree;
    sum += value * (1 - missed);
  }
  return sum;
}

export function bestByTryingAll(
  readings: readonly PlainReading[],
  worth: ReadonlyMap<string, number>,
  budget: number,
): number {
  let best = 0;
  for (let mask = 0; mask < 2 ** readings.length; mask++) {
    const set = readings.filter((_, r) => (mask >> r) & 1);
    if (set.reduce((sum, { minutes }) => sum + minutes, 0) > budget) continue;
    best = Math.max(best, plainGain(set, worth));
  }
  return best;
}

/** Plain greedy by gain a minute, every gain worked out anew from the definition's sum each time. */
export function plainGreedy(
  readings: readonly PlainReading[],
  worth: ReadonlyMap<string, number>,
  budget: number,
): { readonly ids: readonly string[]; readonly gain: number } {
  const left = new Map(worth);
  const rest = new Set(readings);
  const ids: string[] = [];
  let minutes = budget;
  let gain = 0;
  for (;;) {
    let best: PlainReading | undefined;
    let bestGain = 0;
    for (const reading of rest) {
      if (reading.minutes > minutes) continue;
      const adds = reading.covers.reduce(
        (sum, { concept, degree }) => sum + (left.get(concept) ?? 0) * degree,
        0,
      );
      if (adds > 0 && (!best || adds / reading.minutes > bestGain / best.minutes)) {
        best = reading;
        bestGain = adds;
      }
    }
    if (!best) return { ids, gain };
    for (const { concept, degree } of best.covers)
      left.set(concept, (left.get(concept) ?? 0) * (1 - degree));
    rest.delete(best);
    ids.push(best.id);
    minutes -= best.minutes;
    gain += bestGain;
  }
}
