/** Where the heads of narrow columns may be broken. */

/**
 * The text with a soft hyphen in each long word, after the vowel nearest to its middle:
 * browsers break there where they must.
 *
 * @example
 * breakable('Endocrine'); // 'Endo\u00adcrine'
 */
export function breakable(text: string): string {
  return text.replace(/[A-Za-z]{9,}/g, (word) => {
    const places = [...word.matchAll(/[aeiouy](?=[^aeiouy][a-z]{2})/g)].map(
      ({ index }) => index + 1,
    );
    const place = places
      .filter((at) => at > 2)
      .sort((a, b) => Math.abs(a - word.length / 2) - Math.abs(b - word.length / 2))[0];
    return place === undefined ? word : `${word.slice(0, place)}\u00ad${word.slice(place)}`;
  });
}
