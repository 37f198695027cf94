import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { restAt } from '../../../src/app/rest';

beforeEach(() => void vi.useFakeTimers());
afterEach(() => void vi.useRealTimers());

/** A wait for rest, and whether it has ended. */
function waitFor(rest: () => Promise<void>): { ended: boolean } {
  const wait = { ended: false };
  void rest().then(() => (wait.ended = true));
  return wait;
}

describe('a rest', () => {
  it('R1 comes a while after it is asked for where nothing is done', async () => {
    const wait = waitFor(restAt(new EventTarget(), 1_000));
    await vi.advanceTimersByTimeAsync(999);
    expect(wait.ended).toBe(false);
    await vi.advanceTimersByTimeAsync(1);
    expect(wait.ended).toBe(true);
  });

  it.each(['keydown', 'pointerdown', 'wheel', 'hashchange'])(
    'R2 is put off by each %s',
    async (doing) => {
      const target = new EventTarget();
      const wait = waitFor(restAt(target, 1_000));
      for (let times = 0; times < 3; times++) {
        await vi.advanceTimersByTimeAsync(900);
        target.dispatchEvent(new Event(doing));
      }
      await vi.advanceTimersByTimeAsync(999);
      expect(wait.ended).toBe(false);
      await vi.advanceTimersByTimeAsync(1);
      expect(wait.ended).toBe(true);
    },
  );

  it('R3 is not over because something was done long before', async () => {
    const target = new EventTarget();
    const rest = restAt(target, 1_000);
    target.dispatchEvent(new Event('keydown'));
    await vi.advanceTimersByTimeAsync(5_000);
    const wait = waitFor(rest);
    await vi.advanceTimersByTimeAsync(999);
    expect(wait.ended).toBe(false);
  });
});
