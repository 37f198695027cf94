/** Empirical-Bayes shrinkage as a rival of the tracing: the app's own, of Trends. */
export * from '../../../../src/engine/trends/beta-binomial';
