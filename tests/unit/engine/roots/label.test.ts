import { expect, test } from 'vitest';
import { labelLikelihood } from '../../../../src/engine/roots/label';
import { defaultParameters } from '../../../../src/engine/roots/parameters';

test('labels have the likelihoods of the method, worked out by hand', () => {
  // 0.4 true, 0.35 topic, a quarter left over times 0.1.
  const far = labelLikelihood(defaultParameters, 1, 0, undefined);
  expect(far.unnamed).toBeCloseTo(0.025, 14);
  expect(far.named).toBeCloseTo(0.425, 14);
  expect(far.slip).toBeCloseTo(0.025, 14);
  const topic = labelLikelihood(defaultParameters, 1, 1, 'misread');
  expect(topic.unnamed).toBeCloseTo(0.375, 14);
  expect(topic.named).toBeCloseTo(0.775, 14);
  expect(topic.slip).toBeCloseTo(4 * 0.375, 14);
});

test('no label says nothing, whatever the source', () => {
  expect(labelLikelihood(defaultParameters, 0, 0, undefined)).toEqual({
    unnamed: 1,
    named: 1,
    slip: 1,
  });
  expect(labelLikelihood(defaultParameters, 0, 0, 'not-known').slip).toBe(0.25);
});

test('of two causes each is half as telling', () => {
  const two = labelLikelihood(defaultParameters, 2, 1, undefined);
  expect(two.unnamed).toBeCloseTo(0.175 + 0.025, 14);
  expect(two.named - two.unnamed).toBeCloseTo(0.2, 14);
});
