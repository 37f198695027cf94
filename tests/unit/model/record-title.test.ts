import { describe, expect, it } from 'vitest';
import { recordTitle } from '../../../src/model/record-title';
import type { AnyRecord } from '../../../src/model/records';

const record = (fields: object) => ({ id: 'id-7', ...fields }) as unknown as AnyRecord;

describe('the title of a record', () => {
  it('is its most telling field, else its day, else its id', () => {
    expect(recordTitle(record({ title: 'Starling forces', text: 'Four of them.' }))).toBe(
      'Starling forces',
    );
    expect(
      recordTitle(record({ missingPiece: ' ', source: 'the lighthouse set', day: 20_454 })),
    ).toBe('the lighthouse set');
    expect(recordTitle(record({ source: '', day: 20_454 }))).toBe('2026-01-01');
    expect(recordTitle(record({ item: 'x' }))).toBe('id-7');
  });

  it('is one short line, never cut inside a character', () => {
    const title = recordTitle(record({ text: `a\n${'😀'.repeat(100)}` }));
    expect(title.startsWith('a 😀')).toBe(true);
    expect(Array.from(title)).toHaveLength(80);
    expect(title.endsWith('😀…')).toBe(true);
  });
});
