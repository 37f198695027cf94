/** Argument checks that name the entry that is wrong. */

/** Throws unless `value` is a finite number. */
export function requireFinite(where: string, name: string, value: number): void {
  if (!Number.isFinite(value))
    throw new RangeError(`${where}: got ${name} = ${value}; need a finite number`);
}

/** Throws unless `value` is finite and at least 0. */
export function requireNonNegative(where: string, name: string, value: number): void {
  if (!(value >= 0 && value < Infinity))
    throw new RangeError(`${where}: got ${name} = ${value}; need a finite number of at least 0`);
}

/** Throws unless `value` is above 0; Infinity passes. */
export function requirePositive(where: string, name: string, value: number): void {
  if (!(value > 0)) throw new RangeError(`${where}: got ${name} = ${value}; need a number above 0`);
}

/** Throws unless `value` lies in [0, 1]. */
export function requireProbability(where: string, name: string, value: number): void {
  if (!(value >= 0 && value <= 1))
    throw new RangeError(`${where}: got ${name} = ${value}; need a number in [0, 1]`);
}

/** Throws unless `value` is a whole number of at least `least`. */
export function requireCount(where: string, name: string, value: number, least = 0): void {
  if (!Number.isInteger(value) || value < least)
    throw new RangeError(
      `${where}: got ${name} = ${value}; need a whole number of at least ${least}`,
    );
}
