/**
 * Seeded uniform random numbers.
 *
 * xoshiro128** 1.1 by D. Blackman & S. Vigna ("Scrambled linear pseudorandom
 * number generators", ACM Transactions on Mathematical Software 47, 2021):
 * 32-bit words only, so it is exact and quick here. The state is filled by a
 * Weyl sequence through the 32-bit finaliser of MurmurHash3 (A. Appleby), so
 * that neighbouring seeds start far apart.
 */
import { requireFinite } from './check';

/** A source of random words and uniforms. */
export interface Random {
  /** The next 32-bit word, 0 to 2^32 - 1. */
  word(): number;
  /** The next uniform number in the open interval (0, 1): never 0, so its logarithm is finite. */
  uniform(): number;
  /** The same from one word, so of 2^32 values only: enough to choose by, and half the time. */
  coarse(): number;
}

/** 1 / 2^52: the spacing of the uniforms. */
const spacing = 2 ** -52;

/** Words made at a time: few enough for those who want a handful. */
const wordsAtOnce = 128;

/** The generator of a seed. @throws {RangeError} for NaN or an infinite seed */
export function randomFrom(seed: number): Random {
  requireFinite('randomFrom', 'seed', seed);
  // Both halves of the seed matter, so that seeds above 2^32 differ too.
  let weyl = ((seed % 2 ** 32) >>> 0) ^ Math.imul(Math.floor(seed / 2 ** 32), 0x9e3779b9);
  const next = () => {
    weyl = (weyl + 0x9e3779b9) | 0;
    let mixed = weyl ^ (weyl >>> 16);
    mixed = Math.imul(mixed, 0x85ebca6b);
    mixed ^= mixed >>> 13;
    mixed = Math.imul(mixed, 0xc2b2ae35);
    return (mixed ^ (mixed >>> 16)) >>> 0;
  };
  return randomFromState(next(), next(), next(), next());
}

/**
 * The generator in a given state of four 32-bit words.
 *
 * @throws {RangeError} when all four are 0: the generator would stay there
 *
 * @example
 * randomFromState(1, 2, 3, 4).word(); // 11520
 */
export function randomFromState(a: number, b: number, c: number, d: number): Random {
  if ((a | b | c | d | 0) === 0)
    throw new RangeError('randomFromState: got four zeros; need at least one word above 0');
  const state = Int32Array.of(a, b, c, d);
  // Many words at a time: within one loop the state stays in registers.
  const words = new Uint32Array(wordsAtOnce);
  let next = wordsAtOnce;
  const refill = () => {
    let [s0, s1, s2, s3] = state as unknown as [number, number, number, number];
    for (let k = 0; k < wordsAtOnce; k++) {
      const times5 = Math.imul(s1, 5);
      words[k] = Math.imul((times5 << 7) | (times5 >>> 25), 9);
      s2 ^= s0;
      s3 ^= s1;
      const shifted = s1 << 9;
      s1 ^= s2;
      s0 ^= s3;
      s2 ^= shifted;
      s3 = (s3 << 11) | (s3 >>> 21);
    }
    state[0] = s0;
    state[1] = s1;
    state[2] = s2;
    state[3] = s3;
    next = 0;
  };
  const word = () => {
    if (next === wordsAtOnce) refill();
    return words[next++]!;
  };
  return {
    word,
    // 52 bits and a half: (k + 1/2) / 2^52 for k below 2^52 is exact and symmetric about 1/2.
    coarse: () => (word() + 0.5) * 2 ** -32,
    uniform: () => ((word() >>> 6) * 2 ** 26 + (word() >>> 6) + 0.5) * spacing,
  };
}
