/**
 * Empirical-Bayes shrinkage of many rates: rate_k ~ Beta(a, b), misses_k ~ Binomial(n_k, rate_k),
 * with a and b set by maximum likelihood.
 *
 * Source: Gelman et al., *Bayesian Data Analysis* (3rd ed.), section 5.1, for the model.
 */

/** Events out of tries, one pair a group. */
export interface Group {
  readonly events: number;
  readonly tries: number;
}

export interface BetaFit {
  readonly a: number;
  readonly b: number;
  readonly converged: boolean;
  /** Newton steps taken. */
  readonly iterations: number;
}

/**
 * Log-likelihood of a and b without the binomial coefficients, which do not depend on them.
 * Counts are whole, so ratios of gamma functions are products: no special functions needed.
 */
export function betaBinomialLogLikelihood(groups: readonly Group[], a: number, b: number): number {
  return logLikelihood(countsOf(groups), a, b);
}

/**
 * How many groups have more than j events, other tries, and tries: entry j of each. The factors of
 * all groups for one j are the same number, so a sum over these grows with the largest group only.
 */
interface Counts {
  readonly events: Float64Array;
  readonly others: Float64Array;
  readonly tries: Float64Array;
}

function countsOf(groups: readonly Group[]): Counts {
  return {
    events: groupsAbove(groups.map(({ events }) => events)),
    others: groupsAbove(groups.map(({ events, tries }) => tries - events)),
    tries: groupsAbove(groups.map(({ tries }) => tries)),
  };
}

/** @example groupsAbove([2, 1]); // [2, 1]: both are above 0, one is above 1 */
function groupsAbove(sizes: readonly number[]): Float64Array {
  const above = new Float64Array(Math.max(0, ...sizes));
  for (const size of sizes) if (size > 0) above[size - 1]! += 1;
  for (let j = above.length - 2; j >= 0; j--) above[j]! += above[j + 1]!;
  return above;
}

function logLikelihood({ events, others, tries }: Counts, a: number, b: number): number {
  return logRises(events, a) + logRises(others, b) - logRises(tries, a + b);
}

/** Factors multiplied before a logarithm is taken: of numbers up to 1e9 so many stay below 1e308. */
const factorsAtOnce = 32;

/** The sum of counts[j] * log(x + j): few logarithms, for counts that stay the same over long stretches. */
function logRises(counts: Float64Array, x: number): number {
  let sum = 0;
  for (let j = 0; j < counts.length;) {
    const count = counts[j]!;
    const end = Math.min(counts.length, j + factorsAtOnce);
    let product = 1;
    for (; j < end && counts[j] === count; j++) product *= x + j;
    sum += count * Math.log(product);
  }
  return sum;
}

/**
 * Maximum-likelihood a and b, by Newton steps on the log odds of the mean and the log of a + b,
 * halved until they climb.
 *
 * Where the groups scatter no more than chance allows the likelihood climbs for ever with a + b;
 * it is stopped at 1e4 tries' worth, and `converged` is false.
 *
 * @throws {RangeError} if no group has any tries, or all or none of the tries are events
 */
export function fitBetaBinomial(groups: readonly Group[]): BetaFit {
  const tries = groups.reduce((sum, group) => sum + group.tries, 0);
  const events = groups.reduce((sum, group) => sum + group.events, 0);
  if (!(events > 0 && events < tries)) {
    throw new RangeError(
      `fitBetaBinomial: got ${events} events in ${tries} tries; need some, but not all`,
    );
  }
  const shapes = (point: Point): [number, number] => {
    const total = Math.exp(point.logTotal);
    const mean = 1 / (1 + Math.exp(-point.logOdds));
    return [total * mean, total * (1 - mean)];
  };
  const counts = countsOf(groups);
  const height = (point: Point) => logLikelihood(counts, ...shapes(point));

  let point: Point = { logOdds: Math.log(events / (tries - events)), logTotal: Math.log(10) };
  let best = height(point);
  let iterations = 0;
  while (iterations < 200) {
    iterations++;
    const move = climbingMove(counts, ...shapes(point));
    let share = 1;
    let next = moved(point, move, share);
    let reached = height(next);
    while (!(reached > best) && share > 1e-10) {
      share /= 2;
      next = moved(point, move, share);
      reached = height(next);
    }
    if (!(reached > best)) break; // no way up that floating point can see
    const gained = reached - best;
    point = next;
    best = reached;
    if (gained < 1e-13 * Math.abs(best)) break;
    if (point.logTotal > Math.log(1e4)) {
      const [a, b] = shapes({ ...point, logTotal: Math.log(1e4) });
      return { a, b, converged: false, iterations };
    }
  }
  const [a, b] = shapes(point);
  return { a, b, converged: iterations < 200, iterations };
}

interface Point {
  readonly logOdds: number;
  readonly logTotal: number;
}

function moved(point: Point, move: Point, share: number): Point {
  // At most a factor e a step: far from the top the curvature says little.
  const limit = (size: number) => Math.max(-1, Math.min(1, size)) * share;
  return {
    logOdds: point.logOdds + limit(move.logOdds),
    logTotal: point.logTotal + limit(move.logTotal),
  };
}

/** The Newton step in (log odds of the mean, log of a + b), or plain ascent where it is no climb. */
function climbingMove({ events, others, tries }: Counts, a: number, b: number): Point {
  // First and second derivatives in a and b: sums of 1 / (a + j) and their slopes.
  let [da, db, daa, dbb, dTotal, ddTotal] = [0, 0, 0, 0, 0, 0];
  for (let j = 0; j < events.length; j++) {
    da += events[j]! / (a + j);
    daa -= events[j]! / (a + j) ** 2;
  }
  for (let j = 0; j < others.length; j++) {
    db += others[j]! / (b + j);
    dbb -= others[j]! / (b + j) ** 2;
  }
  for (let j = 0; j < tries.length; j++) {
    dTotal -= tries[j]! / (a + b + j);
    ddTotal += tries[j]! / (a + b + j) ** 2;
  }
  const total = a + b;
  const slopeA = da + dTotal;
  const slopeB = db + dTotal;
  // a = total * m, b = total * (1 - m): da/dlogOdds = ab/total, db/dlogOdds = -ab/total.
  const spread = (a * b) / total;
  const skew = (b - a) / total;
  const slopeOdds = spread * (slopeA - slopeB);
  const slopeTotal = a * slopeA + b * slopeB;
  const curveOdds = spread * spread * (daa + dbb) + skew * slopeOdds;
  const curveTotal = a * a * daa + b * b * dbb + total * total * ddTotal + slopeTotal;
  const curveCross = spread * (a * daa - b * dbb) + slopeOdds;
  const determinant = curveOdds * curveTotal - curveCross * curveCross;
  if (curveOdds < 0 && determinant > 0) {
    return {
      logOdds: -(curveTotal * slopeOdds - curveCross * slopeTotal) / determinant,
      logTotal: -(curveOdds * slopeTotal - curveCross * slopeOdds) / determinant,
    };
  }
  return { logOdds: slopeOdds, logTotal: slopeTotal };
}

/** The rate of one group, pulled towards the mean of all. */
export function shrunkRate({ a, b }: Pick<BetaFit, 'a' | 'b'>, { events, tries }: Group): number {
  return (a + events) / (a + b + tries);
}
