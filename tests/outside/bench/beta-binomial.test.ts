/** Beta-binomial shrinkage against published data sets. */
import { describe, expect, it } from 'vitest';
import {
  betaBinomialLogLikelihood,
  fitBetaBinomial,
  shrunkRate,
  type Group,
} from '../../bench/roots/peers/beta-binomial';

/**
 * Rat tumours: Gelman et al., *Bayesian Data Analysis* (3rd ed.), section 5.1; data of Tarone
 * (1982), from memory; their totals, 267 of 1,739, and mean agree with the book.
 */
const tumours = repeat(
  '0x14 1x8 2x9 1 5 2 5 3 2 7 7 3 3 2 9 10 4x7 10 4x3 5 11 12 5 5 6 5 6x4 16 15 15 9 4',
);
const rats = repeat(
  '20x7 19x4 18 18 17 20x4 19 19 18 18 25 24 23 20x6 10 49 19 46 27 17 49 47 20 20 13 48 50 20x7 48 19x3 22 46 49 20 20 23 19 22 20x3 52 46 47 24 14',
);

/** Numbers written as "value" or "valuexcount". */
function repeat(text: string): number[] {
  return text.split(' ').flatMap((part) => {
    const [value, count = '1'] = part.split('x');
    return Array<number>(Number(count)).fill(Number(value));
  });
}

const groups: Group[] = tumours.map((events, index) => ({ events, tries: rats[index]! }));

/** ln of the binomial coefficients, which the printed likelihoods include. */
function logCoefficients(list: readonly Group[]): number {
  let sum = 0;
  for (const { events, tries } of list) {
    for (let j = 1; j <= events; j++) sum += Math.log((tries - events + j) / j);
  }
  return sum;
}

describe('the beta-binomial fit', () => {
  it('has the rat data of the book before it', () => {
    expect(groups.length).toBe(71);
    expect(rats.length).toBe(71);
    expect(tumours.reduce((a, b) => a + b, 0)).toBe(267);
    expect(rats.reduce((a, b) => a + b, 0)).toBe(1_739);
  });

  it('finds the maximum of 71 groups of rats, by another program', () => {
    const fit = fitBetaBinomial(groups);
    expect(fit.converged).toBe(true);
    // Newton doubles its correct digits: a wrong curvature shows as many more steps.
    expect(fit.iterations).toBeLessThan(12);
    expect(Math.abs(fit.a - 2.341614)).toBeLessThan(1e-4);
    expect(Math.abs(fit.b - 14.114802)).toBeLessThan(1e-4);
    const height = betaBinomialLogLikelihood(groups, fit.a, fit.b) + logCoefficients(groups);
    expect(height).toBeCloseTo(-156.56892988, 6);
  });

  it('finds that of the first 70 groups, and the likelihood of the printed prior', () => {
    const fit = fitBetaBinomial(groups.slice(0, 70));
    expect(Math.abs(fit.a - 2.304784)).toBeLessThan(1e-4);
    expect(Math.abs(fit.b - 14.079812)).toBeLessThan(1e-4);
    const atPrinted = betaBinomialLogLikelihood(groups, 1.4, 8.6) + logCoefficients(groups);
    expect(atPrinted).toBeCloseTo(-157.8844240286, 6);
  });

  it('shrinks single groups towards the mean', () => {
    const fit = fitBetaBinomial(groups);
    // Six digits printed.
    expect(Math.abs(shrunkRate(fit, { events: 0, tries: 20 }) - 0.064231)).toBeLessThan(1e-6);
    expect(Math.abs(shrunkRate(fit, { events: 4, tries: 14 }) - 0.208219)).toBeLessThan(1e-6);
    expect(Math.abs(shrunkRate(fit, { events: 16, tries: 52 }) - 0.267931)).toBeLessThan(1e-6);
  });

  it('gets to the top of the all but flat likelihood of 18 batting averages', () => {
    // B. Efron & C. Morris (1975), JASA 70:311-319: hits in the first 45 at-bats. Maximum by
    // another program: mean .265433, log-likelihood -45.343896; a = 210.55 is hardly determined.
    const batting = repeat('18 17 16 15 14 14 13 12 11 11 10x5 9 8 7').map((events) => ({
      events,
      tries: 45,
    }));
    expect(batting.length).toBe(18);
    const { a, b, converged } = fitBetaBinomial(batting);
    expect(converged).toBe(true);
    expect(Math.abs(a / (a + b) - 0.265433)).toBeLessThan(1e-6);
    const height = betaBinomialLogLikelihood(batting, a, b) + logCoefficients(batting);
    expect(Math.abs(height - -45.343896)).toBeLessThan(1e-6);
    expect(Math.abs(a - 210.55)).toBeLessThan(0.5);
  });
});
