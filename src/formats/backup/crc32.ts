/**
 * The CRC-32 of bytes, as ZIP uses it: polynomial 0xEDB88320, reflected, both ends inverted.
 *
 * Source: ITU-T Recommendation V.42 (2002), section 8.1.1.6.2.
 *
 * @returns a whole number in [0, 2^32)
 *
 * @example
 * crc32(new TextEncoder().encode('123456789')); // 0xcbf43926
 */
export function crc32(bytes: Uint8Array): number {
  let sum = 0xffffffff;
  for (const byte of bytes) sum = (table[(sum ^ byte) & 0xff] ?? 0) ^ (sum >>> 8);
  return (sum ^ 0xffffffff) >>> 0;
}

const table = Uint32Array.from({ length: 256 }, (_, index) => {
  let sum = index;
  for (let bit = 0; bit < 8; bit++) sum = sum & 1 ? (sum >>> 1) ^ 0xedb88320 : sum >>> 1;
  return sum;
});
