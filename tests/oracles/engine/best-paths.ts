/** Oracle: best products along paths, by walking every path. */

export interface Link {
  readonly from: number;
  readonly to: number;
  readonly strength: number;
}

/** The best product to each concept reached from `topic` by at most `depth` links. */
export function bestProducts(
  links: readonly Link[],
  topic: number,
  depth: number,
): Map<number, number> {
  const best = new Map<number, number>();
  const walk = (at: number, product: number, left: number): void => {
    best.set(at, Math.max(best.get(at) ?? 0, product));
    if (left === 0) return;
    for (const link of links)
      if (link.from === at) walk(link.to, product * link.strength, left - 1);
  };
  walk(topic, 1, depth);
  return best;
}
