/**
 * Makes the demo's log: `npm run seed` writes seed-data/demo/demo.json.
 *
 * Seeded: the same map, readings, texts and scenario give the same file, byte
 * for byte. The tests run it again and compare.
 */
import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { conceptsOf, readMapParts, readPieces, readReadings, readTexts } from './demo/read-seed';
import { simulateDemo, type DemoFile } from './demo/simulate';

/** The demo as it follows from the files beside this one. */
export function makeDemo(): DemoFile {
  return simulateDemo(conceptsOf(readMapParts('human')), {
    pieces: readPieces(),
    readings: readReadings('human'),
    ...readTexts(),
  });
}

/** The text of the demo's file: one record a line, so that a change shows as few lines. */
export function demoText(demo: DemoFile): string {
  const fields = Object.entries(demo).map(([name, value]) => {
    if (!Array.isArray(value)) return `"${name}": ${JSON.stringify(value)}`;
    const rows = value.map((record) => JSON.stringify(record));
    return `"${name}": [\n${rows.join(',\n')}\n]`;
  });
  return `{\n${fields.join(',\n')}\n}\n`;
}

if (process.argv[1]?.endsWith('generate.ts')) {
  const demo = makeDemo();
  writeFileSync(join(import.meta.dirname, 'demo', 'demo.json'), demoText(demo));
  console.log(`demo.json: ${demo.blocks.length} blocks, ${demo.items.length} items`);
}
