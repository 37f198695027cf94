/** The demo's missing pieces: enough of them, each on a concept of the starter map. */
import { describe, expect, it } from 'vitest';
import * as v from 'valibot';
import { readSeedJson, readSeedMap } from './map-files';

const oneLine = v.pipe(v.string(), v.regex(/^\S[^\r\n]*\S$/));

const piecesSchema = v.strictObject({
  format: v.literal('hypocentre-demo-pieces'),
  version: v.literal(1),
  about: oneLine,
  concepts: v.array(
    v.strictObject({
      concept: v.string(),
      pieces: v.pipe(v.array(oneLine), v.minLength(3)),
      optionTurns: v.array(v.strictObject({ option: oneLine, turn: oneLine })),
    }),
  ),
});

const { concepts } = v.parse(piecesSchema, readSeedJson('demo/pieces.json'));
const pieces = concepts.flatMap((entry) => entry.pieces);

describe('the missing pieces of the demo', () => {
  it('are written for at least 120 concepts, each named once and on the human map', () => {
    const onMap = new Set<string>(readSeedMap('human').concepts.map((concept) => concept.id));
    expect(concepts.map((entry) => entry.concept).filter((id) => !onMap.has(id))).toEqual([]);
    expect(new Set(concepts.map((entry) => entry.concept)).size).toBe(concepts.length);
    expect(concepts.length).toBeGreaterThanOrEqual(120);
  });

  it('never repeat a text', () => {
    expect(pieces.filter((piece, i) => pieces.indexOf(piece) !== i)).toEqual([]);
  });

  it('stay short enough to be typed in a review: at most 160 characters', () => {
    expect(pieces.filter((piece) => piece.length > 160)).toEqual([]);
  });

  it('have option turns for at least 40 concepts', () => {
    const turned = concepts.filter((entry) => entry.optionTurns.length > 0);
    expect(turned.length).toBeGreaterThanOrEqual(40);
  });
});
