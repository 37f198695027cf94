/** Order and loops against graphology 0.26.0 with graphology-dag 0.4.1. */
import { DirectedGraph } from 'graphology';
import { hasCycle } from 'graphology-dag';
import { expect, test } from 'vitest';
import { findLoop } from '../../../src/engine/graph/loop';
import { randomFrom } from '../../../src/engine/numeric/random';

test('a loop is found exactly where graphology finds one, on 300 random graphs', () => {
  const random = randomFrom(4);
  let loops = 0;
  for (let round = 0; round < 300; round++) {
    const count = 2 + Math.floor(random.uniform() * 12);
    const theirs = new DirectedGraph();
    for (let i = 0; i < count; i++) theirs.addNode(i);
    const targets: number[][] = Array.from({ length: count }, () => []);
    for (let k = 0; k < count; k++) {
      const from = Math.floor(random.uniform() * count);
      const to = Math.floor(random.uniform() * count);
      if (from === to || theirs.hasEdge(from, to)) continue;
      theirs.addEdge(from, to);
      targets[from]!.push(to);
    }
    const start = new Int32Array(count + 1);
    for (let i = 0; i < count; i++) start[i + 1] = start[i]! + targets[i]!.length;
    const loop = findLoop(start, Int32Array.from(targets.flat()));
    expect(loop !== undefined).toBe(hasCycle(theirs));
    if (loop) {
      loops += 1;
      loop.forEach((node, k) => {
        expect(theirs.hasEdge(node, loop[(k + 1) % loop.length]!)).toBe(true);
      });
    }
  }
  // Both kinds must have come up for the comparison to mean anything.
  expect(loops).toBeGreaterThan(60);
  expect(loops).toBeLessThan(240);
});
