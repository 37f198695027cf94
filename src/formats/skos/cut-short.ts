/** Longest name a record takes, in UTF-16 units (see `shortText` of the model). */
const longestName = 200;

/** A label as a name: on one line, and no longer than a name may be. */
export function cutShort(label: string): string {
  const line = label.replace(/\s+/g, ' ');
  return line.length <= longestName ? line : `${line.slice(0, longestName - 1).trimEnd()}…`;
}
