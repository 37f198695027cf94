/**
 * Makes the demo's log: `npm run seed` writes seed-data/demo/demo.json.
 *
 * Seeded: the same map, missing pieces and scenario give the same file, byte
 * for byte. The tests run it again and compare.
 */
import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { conceptsOf, readMapParts, readPieces } from './demo/read-seed';
import { simulateDemo, type DemoFile } from './demo/simulate';

/** The demo as it follows from the files beside this one. */
export function makeDemo(): DemoFile {
  return simulateDemo(conceptsOf(readMapParts('human')), readPieces());
}

/** The text of the demo's file: one record a line, so that a change shows as few lines. */
export function demoText(demo: DemoFile): string {
  const { blocks, items, ...head } = demo;
  const list = (records: readonly object[]) =>
    `[\n${records.map((record) => JSON.stringify(record)).join(',\n')}\n]`;
  const fields = Object.entries(head).map(([name, value]) => `"${name}": ${JSON.stringify(value)}`);
  return `{\n${fields.join(',\n')},\n"blocks": ${list(blocks)},\n"items": ${list(items)}\n}\n`;
}

if (process.argv[1]?.endsWith('generate.ts')) {
  const demo = makeDemo();
  writeFileSync(join(import.meta.dirname, 'demo', 'demo.json'), demoText(demo));
  console.log(`demo.json: ${demo.blocks.length} blocks, ${demo.items.length} items`);
}
