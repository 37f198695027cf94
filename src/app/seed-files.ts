/** The shipped maps and the demo, each loaded when it is first asked for. */
import type { SeedFiles } from '../state/beginnings.svelte';

/** Every JSON file of the shipped maps, by path; nothing is loaded until it is called. */
const mapFiles = import.meta.glob<unknown>('../../seed-data/maps/*/*.json', { import: 'default' });

/** A map's files, its head (`map.json`) first. */
async function mapNamed(name: string): Promise<readonly unknown[]> {
  const folder = `../../seed-data/maps/${name}/`;
  const head = mapFiles[`${folder}map.json`];
  if (!head) throw new Error(`mapNamed: got "${name}"; need the name of a shipped map`);
  const parts = Object.entries(mapFiles)
    .filter(([path]) => path.startsWith(folder) && !path.endsWith('/map.json'))
    .map(([, load]) => load());
  return Promise.all([head(), ...parts]);
}

const readingFiles = import.meta.glob<unknown>('../../seed-data/readings/*.json', {
  import: 'default',
});

export const seedFiles: SeedFiles = {
  map: mapNamed,
  readings: async (name) => readingFiles[`../../seed-data/readings/${name}.json`]?.(),
  demo: async () => (await import('../../seed-data/demo/demo.json')).default,
};
