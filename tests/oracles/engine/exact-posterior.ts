/**
 * Oracle: the exact posterior of the tracing model on tiny logs, straight from the model's
 * definition, sharing no code with the engine.
 *
 * A miss has likelihood (1 - exp(-L)) / L * (sum over sources of mass * label), L the total of
 * the masses w * lambda and sigma. Since (1 - exp(-L)) / L is the integral of exp(-u L) for u
 * from 0 to 1, each choice of sources and of u for all misses leaves a product of powers and
 * exponentials in every rate, which a gamma prior integrates in closed form. Sources and gap
 * states are enumerated; each u is integrated by Gauss-Legendre quadrature of six points,
 * where the integrand (b + E + u w)^-(a + k) with b at least 2 and w at most 1 leaves an error
 * near 1e-12.
 *
 * Only logs without time weights: halfLifeDays Infinity, no readings.
 */
import type { TraceLog } from '../../../src/engine/index';
import { bestProducts, type Link } from './best-paths';

/** The model's constants, written out again on purpose. */
const outside = 0.15;
const acc = 0.4;
const byTopic = 0.35;
const byNear = 0.05;
const byStray = 0.2;
const hasty = new Set(['misread', 'out-of-time', 'changed-from-right', 'overthought']);

export interface ExactPosterior {
  readonly evidence: number;
  readonly gapChance: readonly number[];
  readonly faultRate: readonly number[];
  /** Second moment of each rate. */
  readonly faultSquare: readonly number[];
  readonly slipRate: number;
  readonly traced: readonly number[];
  /** Per miss (in log order), shares of the concepts and, last, of a slip. */
  readonly shares: readonly (readonly number[])[];
}

/** Roots and weights of six-point Gauss-Legendre on [0, 1], by Newton's method on P6. */
function quadrature(): { node: number; weight: number }[] {
  const points: { node: number; weight: number }[] = [];
  const n = 6;
  for (let i = 0; i < n; i++) {
    let x = Math.cos((Math.PI * (i + 0.75)) / (n + 0.5));
    let slope = 1;
    for (let step = 0; step < 50; step++) {
      let p0 = 1;
      let p1 = x;
      for (let k = 2; k <= n; k++) [p0, p1] = [p1, ((2 * k - 1) * x * p1 - (k - 1) * p0) / k];
      slope = (n * (x * p1 - p0)) / (x * x - 1);
      x -= p1 / slope;
    }
    points.push({ node: (x + 1) / 2, weight: 1 / ((1 - x * x) * slope * slope) });
  }
  return points;
}

function risingFactorial(a: number, k: number): number {
  let product = 1;
  for (let i = 0; i < k; i++) product *= a + i;
  return product;
}

export function exactPosterior(log: TraceLog): ExactPosterior {
  const ids = log.concepts.map((concept) => concept.id);
  const C = ids.length;
  const links: Link[] = log.concepts.flatMap((concept, from) =>
    concept.restsOn.map((link) => ({
      from,
      to: ids.indexOf(link.id),
      strength: link.strength ?? 0.35,
    })),
  );
  const exposure = new Array<number>(C).fill(0);
  let slipExposure = 0;
  const misses: { w: number[]; label: number[]; slipLabel: number }[] = [];
  for (const item of log.items) {
    const w = new Array<number>(C).fill(0);
    for (const topic of item.topics)
      for (const [concept, value] of bestProducts(links, ids.indexOf(topic), 3))
        w[concept] = Math.max(w[concept]!, value);
    if (!item.missed) {
      w.forEach((value, c) => (exposure[c]! += value));
      slipExposure += 1;
      continue;
    }
    const causes = new Set(item.causes);
    const leansOn = ids.filter((_, c) => w[c]! > 0);
    const topics = [...new Set(item.topics)];
    for (const cause of causes)
      if (w[ids.indexOf(cause)] === 0) w[ids.indexOf(cause)] = outside / C;
    /** Chance of naming a cause when one of a list is named at random; any concept for an empty list. */
    const oneOf = (list: readonly string[], cause: string): number =>
      list.length === 0 ? 1 / C : list.includes(cause) ? 1 / list.length : 0;
    const labelOf = (source: string | undefined): number => {
      if (causes.size === 0) return 1;
      let mean = 0;
      for (const cause of causes) {
        const otherwise =
          byTopic * oneOf(topics, cause) + byNear * oneOf(leansOn, cause) + byStray / C;
        // A slip has no source to name: the other manners share what is left.
        const chance =
          source === undefined ? otherwise / (1 - acc) : otherwise + (cause === source ? acc : 0);
        mean += chance / causes.size;
      }
      return mean;
    };
    const ratio =
      item.reason && hasty.has(item.reason) ? 4 : item.reason === 'not-known' ? 1 / 4 : 1;
    misses.push({ w, label: ids.map(labelOf), slipLabel: labelOf(undefined) * ratio });
  }

  const points = quadrature();
  const power = new Array<number>(C).fill(0);
  const rate = [...exposure];
  let slipPower = 0;
  let slipDivisor = slipExposure;
  const sources: number[] = [];

  let evidence = 0;
  const gap = new Array<number>(C).fill(0);
  const fault = new Array<number>(C).fill(0);
  const square = new Array<number>(C).fill(0);
  const traced = new Array<number>(C).fill(0);
  const shares = misses.map(() => new Array<number>(C + 1).fill(0));
  let slipSum = 0;

  const leaf = (mass: number): void => {
    const slipPart =
      (20 ** 2 * risingFactorial(2, slipPower)) / (20 + slipDivisor) ** (2 + slipPower);
    const gapPart = power.map(
      (k, c) => (2 ** 2 * risingFactorial(2, k)) / (2 + rate[c]!) ** (2 + k),
    );
    const soundPart = power.map(
      (k, c) => (25 * risingFactorial(1, k)) / (25 + rate[c]!) ** (1 + k),
    );
    for (let z = 0; z < 2 ** C; z++) {
      let gaps = 0;
      for (let c = 0; c < C; c++) if ((z >> c) & 1) gaps += 1;
      // pi ~ Beta(2, 20) integrated out over the states.
      let weight =
        (mass * slipPart * risingFactorial(2, gaps) * risingFactorial(20, C - gaps)) /
        risingFactorial(22, C);
      for (let c = 0; c < C; c++) weight *= (z >> c) & 1 ? gapPart[c]! : soundPart[c]!;
      evidence += weight;
      slipSum += (weight * (2 + slipPower)) / (20 + slipDivisor);
      for (let c = 0; c < C; c++) {
        const isGap = ((z >> c) & 1) === 1;
        const shape = (isGap ? 2 : 1) + power[c]!;
        const divisor = (isGap ? 2 : 25) + rate[c]!;
        fault[c]! += (weight * shape) / divisor;
        square[c]! += (weight * shape * (shape + 1)) / divisor ** 2;
        if (isGap) gap[c]! += weight;
      }
      sources.forEach((source, m) => {
        shares[m]![source]! += weight;
        if (source < C && (z >> source) & 1) traced[source]! += weight;
      });
    }
  };

  const choose = (m: number, mass: number): void => {
    const miss = misses[m];
    if (!miss) {
      leaf(mass);
      return;
    }
    for (const { node, weight } of points) {
      miss.w.forEach((w, c) => (rate[c]! += node * w));
      slipDivisor += node;
      for (let source = 0; source <= C; source++) {
        const chance = source === C ? miss.slipLabel : miss.w[source]! * miss.label[source]!;
        if (chance === 0) continue;
        sources.push(source);
        if (source === C) slipPower += 1;
        else power[source]! += 1;
        choose(m + 1, mass * weight * chance);
        if (source === C) slipPower -= 1;
        else power[source]! -= 1;
        sources.pop();
      }
      miss.w.forEach((w, c) => (rate[c]! -= node * w));
      slipDivisor -= node;
    }
  };
  choose(0, 1);

  const mean = (sum: number): number => sum / evidence;
  return {
    evidence,
    gapChance: gap.map(mean),
    faultRate: fault.map(mean),
    faultSquare: square.map(mean),
    slipRate: mean(slipSum),
    traced: traced.map(mean),
    shares: shares.map((row) => row.map(mean)),
  };
}
