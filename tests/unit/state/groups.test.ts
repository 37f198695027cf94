import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { Groups } from '../../../src/state/groups';

interface Crate {
  readonly id: string;
  readonly deck: string;
}

const deckOf = ({ deck }: Crate) => deck;
const crate = fc.record({
  id: fc.constantFrom('a', 'b', 'c', 'd', 'e'),
  deck: fc.constantFrom('upper', 'lower', 'bilge'),
});

describe('Groups', () => {
  it('holds what grouping afresh would hold, after any row of puts and removals', () => {
    fc.assert(
      fc.property(
        fc.array(crate),
        fc.array(fc.oneof(crate, fc.constantFrom('a', 'b', 'c', 'd', 'e'))),
        (first, changes) => {
          const groups = new Groups(deckOf, first);
          const now = new Map(first.map((each) => [each.id, each]));
          for (const change of changes) {
            groups.of('upper'); // an array given out before must not linger
            if (typeof change === 'string') {
              groups.remove(change);
              now.delete(change);
            } else {
              groups.put(change);
              now.set(change.id, change);
            }
          }
          const byId = (list: readonly Crate[]) =>
            [...list].sort((one, other) => (one.id < other.id ? -1 : 1));
          for (const deck of ['upper', 'lower', 'bilge'])
            expect(byId(groups.of(deck))).toEqual(
              byId([...now.values()].filter((each) => each.deck === deck)),
            );
        },
      ),
    );
  });

  it('gives the same array until a member changes, whatever happens elsewhere', () => {
    const groups = new Groups(deckOf, [
      { id: 'a', deck: 'upper' },
      { id: 'b', deck: 'lower' },
    ]);
    const upper = groups.of('upper');
    groups.put({ id: 'c', deck: 'lower' });
    groups.remove('b');
    expect(groups.of('upper')).toBe(upper);
    groups.put({ id: 'c', deck: 'upper' });
    expect(groups.of('upper').map(({ id }) => id)).toEqual(['a', 'c']);
    expect(groups.of('lower')).toEqual([]);
  });
});
