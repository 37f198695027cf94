import { describe, expect, it } from 'vitest';
import type { Concept } from '../../../src/model/concept-map';
import type { SystemId } from '../../../src/model/ids';
import { guessPlace } from '../../../src/state/concept-place';

const concept = (name: string, disciplines: string[], systems: string[]) =>
  ({ id: name, name, aliases: [], disciplines, systems }) as unknown as Concept;
const pump = concept('Bilge pump', ['mechanics'], ['deck']);
const valve = concept('Bilge valve', ['mechanics'], ['hull']);
const stars = concept('Star fixes', ['navigation'], ['bridge']);
const all = [pump, valve, stars];

describe('the place of a new concept', () => {
  it('is that of the concepts named like it', () => {
    expect(guessPlace('Bilge pumps, hand', [], all, undefined)).toEqual({
      disciplines: ['mechanics'],
      systems: ['deck'],
    });
  });

  it('is that of the other concepts of the item where no name is like it', () => {
    expect(guessPlace('Qqq', [stars], all, undefined)).toEqual({
      disciplines: ['navigation'],
      systems: ['bridge'],
    });
  });

  it('takes the system that is known over any guess, and guesses nothing from nothing', () => {
    expect(guessPlace('Bilge pumps', [], all, 'galley' as SystemId).systems).toEqual(['galley']);
    expect(guessPlace('Qqq', [], all, undefined)).toEqual({ disciplines: [], systems: [] });
  });
});
