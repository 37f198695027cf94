import { expect, test } from 'vitest';
import {
  explainRoot,
  traceRoots,
  type TraceItem,
  type TraceLog,
} from '../../../../src/engine/index';

const concept = (id: string, restsOn: string[] = []) => ({
  id,
  systems: ['s'],
  restsOn: restsOn.map((each) => ({ id: each })),
});
const item = (
  id: string,
  at: number,
  missed: boolean,
  topics: string[],
  causes: string[] = [],
): TraceItem => ({
  id,
  at,
  missed,
  topics,
  causes,
});

const log: TraceLog = {
  now: 100,
  concepts: [concept('deep'), concept('x', ['deep']), concept('y', ['deep']), concept('z')],
  items: [
    item('x1', 1, true, ['x'], ['deep']),
    item('x2', 2, true, ['x'], ['deep']),
    item('y1', 3, true, ['y'], ['deep']),
    item('y2', 4, true, ['y'], ['y']),
    item('y3', 5, false, ['y']),
    item('d1', 6, false, ['deep']),
    item('x3', 7, false, ['x']),
    item('z1', 8, false, ['z']),
  ],
  unitemised: [],
  readings: [
    { at: 2, concepts: ['deep'] },
    { at: 60, concepts: ['deep', 'z'] },
    { at: 300, concepts: ['deep'] },
  ],
};
const result = traceRoots(log);

test('misses stand under mostly, partly or explained away, each once, with who else had a part', () => {
  const facts = explainRoot(log, result, 'deep');
  const all = [...facts.mostly, ...facts.partly, ...facts.explainedAway].map((miss) => miss.itemId);
  expect(all.sort()).toEqual(['x1', 'x2', 'y1', 'y2']);
  // The first three name it and could be nothing else of more weight.
  expect(
    facts.mostly
      .slice(0, 3)
      .map((miss) => miss.itemId)
      .sort(),
  ).toEqual(['x1', 'x2', 'y1']);
  for (const miss of facts.mostly) {
    expect(miss.share).toBeGreaterThanOrEqual(miss.sharedWith[0]?.share ?? 0);
    expect(miss.named).toBe(miss.itemId !== 'y2');
  }
  // Seen from its topic, the same miss is the topic's in part and mostly the deep concept's.
  const ofTopic = explainRoot(log, result, 'y');
  const others = [...ofTopic.partly, ...ofTopic.explainedAway];
  const y2 = others.find((miss) => miss.itemId === 'y2')!;
  expect(y2.sharedWith[0]!.share).toBeGreaterThan(y2.share);
  const deepShare = result.roots
    .find((root) => root.conceptId === 'deep')!
    .evidence.find((each) => each.itemId === 'y2')!.share;
  expect(y2.sharedWith).toContainEqual({ conceptId: 'deep', share: deepShare });
  for (const miss of [...facts.mostly, y2]) {
    const named = miss.sharedWith.reduce((sum, part) => sum + part.share, miss.share);
    expect(named).toBeLessThanOrEqual(1 + 1e-12);
    // Only sources below a twentieth are left out, and there are three sources at most.
    expect(named).toBeGreaterThan(0.85);
  }
});

test('right items that lean on it speak against it, closest and then latest first', () => {
  const facts = explainRoot(log, result, 'deep');
  expect(facts.against.map(({ itemId, closeness }) => [itemId, closeness])).toEqual([
    ['d1', 1],
    ['x3', 0.35],
    ['y3', 0.35],
  ]);
  expect([facts.rightCount, facts.missedCount]).toEqual([3, 4]);
});

test('the last reading is the last before now', () => {
  expect(explainRoot(log, result, 'deep').lastReadAt).toBe(60);
  expect(explainRoot(log, result, 'y').lastReadAt).toBeUndefined();
});

test('lists are cut to length, and an unknown concept is named', () => {
  expect(explainRoot(log, result, 'deep', 1).against).toHaveLength(1);
  expect(() => explainRoot(log, result, 'q')).toThrow('"q"');
  expect(() => explainRoot({ ...log, items: [] }, result, 'deep')).toThrow('need the log it is of');
});
