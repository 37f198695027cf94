/** The main screens, as the rail, the bar of a narrow screen and the list of all screens show them. */
export interface RailEntry {
  readonly path: string;
  readonly name: string;
  /** What the screen answers, in a few words. */
  readonly says: string;
  /** Stands in the bar at the foot of a narrow screen; the rest are one step behind "More". */
  readonly inBar?: boolean;
}

/** In the order of a candidate's day. */
export const rail: readonly RailEntry[] = [
  { path: '/today', name: 'Today', says: 'what now', inBar: true },
  { path: '/log', name: 'Log', says: 'what happened in a block', inBar: true },
  { path: '/roots', name: 'Roots', says: 'what lies under the misses', inBar: true },
  { path: '/map', name: 'Map', says: 'how concepts hang together' },
  { path: '/reading', name: 'Read next', says: 'what to read in the minutes there are' },
  { path: '/looks', name: 'Second look', says: 'which misses come back now', inBar: true },
  { path: '/notes', name: 'Notes', says: 'what you wrote in your own words' },
  { path: '/find', name: 'Find', says: 'where something was written' },
  { path: '/sheet', name: 'Recall sheet', says: 'the page to write from memory' },
  { path: '/trends', name: 'Trends', says: 'whether things are on course' },
  { path: '/safekeeping', name: 'Safekeeping', says: 'whether your work is safe' },
  { path: '/about', name: 'About', says: 'cautions, data and settings' },
];

/** Whether an address belongs to a screen of the rail; the app opens on Today. */
export function isUnder(location: string, path: string): boolean {
  if (location === '/') return path === '/today';
  return location === path || location.startsWith(`${path}/`);
}
