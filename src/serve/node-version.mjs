// Says whether this Node can run the project. Written in old syntax only: an older Node must
// still be able to parse this file to say the sentence.

/** What the build tools and the test tools accept: 20.19 or later in 20, and 22.13 or later. */
const OLDEST_MINOR_20 = 19;
const OLDEST_MINOR_22 = 13;

/**
 * Returns what is wrong with a Node version, or undefined when it will do.
 *
 * @param {string} version such as "20.19.0", without a leading v
 * @returns {string | undefined} one sentence for the person at the terminal
 *
 * @example
 * nodeVersionFault('18.20.4'); // 'Hypocentre needs Node 20.19 or newer ...; this is Node 18.20.4. ...'
 * nodeVersionFault('22.13.0'); // undefined
 */
export function nodeVersionFault(version) {
  const parts = version.split('.');
  const major = Number(parts[0]);
  const minor = Number(parts[1]);
  const newEnough =
    major > 22 ||
    (major === 22 && minor >= OLDEST_MINOR_22) ||
    (major === 20 && minor >= OLDEST_MINOR_20);
  if (newEnough) return undefined;
  return (
    'Hypocentre needs Node 20.19 or newer (of Node 22, 22.13 or newer; not Node 21); this is Node ' +
    version +
    '. Install a newer one from https://nodejs.org and try again.'
  );
}
