import { describe, expect, it } from 'vitest';
import { fitSheet, nextMinuteOf } from '../../../../src/engine/sheet/fit';

const line = (id: string, seconds: number, worth: number, more: object = {}) => ({
  id,
  seconds,
  worth,
  ...more,
});

describe('fitSheet', () => {
  it('prefers two short lines to one long line of more worth than either', () => {
    const fit = fitSheet([line('long', 60, 5), line('one', 31, 3), line('two', 29, 3)], 60);
    expect(fit).toEqual({
      in: ['one', 'two'],
      out: ['long'],
      secondsUsed: 60,
      worth: 6,
      pinnedTooLong: false,
    });
  });

  it('keeps a pinned line in and a banned one out, whatever they are worth', () => {
    const fit = fitSheet(
      [
        line('dear', 50, 9, { banned: true }),
        line('cheap', 40, 0, { pinned: true }),
        line('next', 20, 1),
      ],
      60,
    );
    expect(fit.in).toEqual(['cheap', 'next']);
  });

  it('says when the pinned lines alone take too long, and puts nothing beside them', () => {
    const fit = fitSheet(
      [line('a', 50, 1, { pinned: true }), line('b', 20, 1, { pinned: true }), line('c', 1, 1)],
      60,
    );
    expect(fit).toMatchObject({ in: ['a', 'b'], pinnedTooLong: true, secondsUsed: 70 });
  });

  it('counts a second that was begun: two lines of 30.4 s do not go into 61', () => {
    const fit = fitSheet([line('a', 30.4, 1), line('b', 30.4, 1)], 61);
    expect([fit.in.length, fit.secondsUsed]).toEqual([1, 31]);
  });

  it('leaves out what is worth nothing', () => {
    expect(fitSheet([line('a', 5, 0)], 60).in).toEqual([]);
  });

  it('names the line that is wrong', () => {
    expect(() => fitSheet([line('a', -5, 0)], 60)).toThrow(/seconds of "a"/);
  });
});

describe('nextMinuteOf', () => {
  it('names what comes in, what gives way, and the worth gained', () => {
    const lines = [line('big', 100, 10), line('small', 50, 4)];
    const fit = fitSheet(lines, 60);
    expect(fit.in).toEqual(['small']);
    expect(nextMinuteOf(lines, 60, fit)).toEqual({ added: ['big'], removed: ['small'], worth: 6 });
  });
});
