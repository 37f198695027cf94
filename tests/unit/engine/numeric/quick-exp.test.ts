import { describe, expect, test } from 'vitest';
import { quickExp } from '../../../../src/engine/numeric/quick-exp';

describe('quickExp', () => {
  test('is the exponential to three parts in a thousand million, also between and at the steps', () => {
    for (let x = -99.9; x < 99.9; x += 0.00731)
      expect(Math.abs(quickExp(x) / Math.exp(x) - 1)).toBeLessThan(3e-9);
    for (let k = -64; k <= 64; k++)
      expect(Math.abs(quickExp(k / 64) / Math.exp(k / 64) - 1)).toBeLessThan(3e-9);
    expect(quickExp(0)).toBe(1);
  });

  test('stays finite far out, and 0 on the far left', () => {
    expect(quickExp(-1e9)).toBe(0);
    expect(quickExp(-Infinity)).toBe(0);
    expect(quickExp(1e9)).toBeGreaterThan(1e43);
    expect(Number.isFinite(quickExp(Infinity))).toBe(true);
  });
});
