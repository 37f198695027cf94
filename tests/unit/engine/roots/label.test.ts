import { expect, test } from 'vitest';
import { missReasons } from '../../../../src/model/log';
import {
  defaultLabelShares,
  labelTerms,
  noLabel,
  reasonSlipRatio,
  type LabelTerms,
} from '../../../../src/engine/roots/label';
import { defaultParameters } from '../../../../src/engine/roots/parameters';
import { rowBuilder } from '../../../../src/engine/roots/row-builder';

/** One miss with a named and another source. */
function likelihoods(terms: LabelTerms, slipRatio = 1) {
  const rows = rowBuilder();
  rows.source(0, 1, terms.causeCount > 0, 1);
  rows.source(1, 0.35, false, 1);
  rows.close({
    terms,
    slipRatio,
    slipTime: 1,
    multiplicity: 1,
    system: -1,
    window: 0,
    ageSpan: 0,
    item: 0,
  });
  const { label, slipLabel } = rows.finish(defaultLabelShares(defaultParameters));
  return { named: label[0]!, other: label[1]!, slip: slipLabel[0]! };
}

const counts = { causeCount: 1, topicCauses: 0, nearCauses: 0, topicCount: 1, nearCount: 5 };

test('labels have the likelihoods of the method, worked out by hand', () => {
  // Of a map of 100: 0.4 true, 0.35 a topic, 0.05 one of 5 leant on, 0.2 any.
  const far = likelihoods(labelTerms(counts, 100));
  expect(far.named).toBeCloseTo((0.4 + 0.002) / 0.002, 9);
  expect(far.other).toBe(1);
  expect(far.slip).toBeCloseTo(1 / 0.6, 12);
  const topic = likelihoods(labelTerms({ ...counts, topicCauses: 1, nearCauses: 1 }, 100), 4);
  const otherwise = 0.35 + 0.05 / 5 + 0.2 / 100;
  expect(topic.named).toBeCloseTo((0.4 + otherwise) / otherwise, 12);
  expect(topic.slip).toBeCloseTo(4 / 0.6, 12);
  const near = likelihoods(labelTerms({ ...counts, nearCauses: 1 }, 100));
  expect(near.named).toBeCloseTo((0.4 + 0.012) / 0.012, 10);
});

test('no label says nothing, whatever the source', () => {
  expect(likelihoods(noLabel)).toEqual({ named: 1, other: 1, slip: 1 });
  expect(likelihoods(noLabel, 0.25).slip).toBe(0.25);
});

test('of two causes each is half as telling', () => {
  const two = labelTerms({ ...counts, causeCount: 2, topicCauses: 1, nearCauses: 1 }, 100);
  const otherwise = 0.35 / 2 + 0.05 / 10 + 0.2 / 100;
  expect(likelihoods(two).named).toBeCloseTo((0.2 + otherwise) / otherwise, 12);
});

test('an item of no topic, leaning on nothing, could be named anything', () => {
  expect(labelTerms({ ...counts, topicCount: 0, nearCount: 0 }, 50)).toEqual({
    causeCount: 1,
    topic: 1 / 50,
    near: 1 / 50,
    stray: 1 / 50,
  });
});

test('reasons of haste favour a slip, "not known" a concept, the rest neither', () => {
  const ratios = missReasons.map((reason) => reasonSlipRatio(defaultParameters, reason));
  expect(ratios.filter((ratio) => ratio === 4)).toHaveLength(4);
  expect(reasonSlipRatio(defaultParameters, 'not-known')).toBe(0.25);
  expect(reasonSlipRatio(defaultParameters, undefined)).toBe(1);
});
