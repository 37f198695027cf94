/** Numbers typed into fields that may stay empty. */

import { texts } from './texts';

/** The number, or undefined for an empty field. Only for text without a fault. */
export const optionalNumber = (text: string): number | undefined =>
  text.trim() === '' ? undefined : Number(text.trim().replace(',', '.'));

export const numberText = (value: number | undefined): string =>
  value === undefined ? '' : String(value);

/** Why text is no number in a range; undefined where it is one, or empty. */
export function numberFault(least: number, most: number, whole = false) {
  return (text: string): string | undefined => {
    const value = optionalNumber(text);
    if (value === undefined) return undefined;
    if (Number.isNaN(value) || value < least || value > most || (whole && !Number.isInteger(value)))
      return texts.numberField.writeANumber(
        whole ? texts.numberField.wholeNumber : texts.numberField.number,
        least,
        most.toLocaleString('en-GB'),
      );
    return undefined;
  };
}
