/** Which names are written where at a view, so that no two meet; measured, not yet painted. */
import { placeLabels } from '../engine';
import { bodiesOf, ringStep, type Geometry } from './geometry';
import { barsBetween } from './in-sight';
import type { View } from './paint-ground';
import { ringsOf, type Picture } from './picture';

export interface Label {
  readonly bar: number;
  readonly text: string;
  /** Whether the text is the whole name. */
  readonly whole: boolean;
  /** Written once more, on a further body of the bar. */
  readonly again: boolean;
  /** The missing piece after the name, cut to the room there is; empty for none. */
  readonly piece: string;
  readonly pieceLeft: number;
  readonly size: number;
  readonly weight: number;
  /** On a bar, or in a box of its own over a bar too thin for its name. */
  readonly kind: 'on' | 'over';
  /** What it takes of the screen, in CSS pixels. */
  readonly left: number;
  readonly right: number;
  readonly top: number;
  readonly bottom: number;
}

/** Width in CSS pixels of a text set in this size and weight. */
export type Measure = (text: string, size: number, weight: number) => number;

export interface LabelOptions {
  /** Where the picture begins: names keep to the right of it. */
  readonly left: number;
  readonly chosen: string | undefined;
  readonly faded: (id: string) => boolean;
}

/** Smallest letters shown, in CSS pixels. */
export const leastLetters = 7.5;
const mostLetters = 15;
/** Letters against the body they stand on. */
const lettersShare = 0.92;
/** A name cut to less than this says nothing. */
const leastRoom = 26;
/** A missing piece is begun only where this much of it can be read. */
const leastPieceRoom = 90;
/** On a further body a name is written once more where this much of it can be read. */
const leastAgain = 34;
const pad = 4;

export function labelsOf(
  picture: Picture,
  geometry: Geometry,
  view: View,
  measure: Measure,
  options: LabelOptions,
): readonly Label[] {
  const { bars } = picture.section;
  const starts = startsOf(picture, geometry);
  const withPieces = geometry.lens === 'system' || view.zoom > 1.6;
  const toX = (plane: number) => plane * view.zoom + view.x;
  const on: Label[] = [];
  const again: Label[] = [];
  const over: Label[] = [];

  const upper = -view.y / view.zoom;
  for (const i of barsBetween(picture.section, geometry, upper, upper + view.height / view.zoom)) {
    const bar = bars[i]!;
    const concept = picture.concepts[i]!;
    // Where room is short, names belong to what is looked at.
    if (geometry.lens === 'whole' && options.faded(bar.id)) continue;
    const size = Math.min(mostLetters, geometry.bodyHeight[bar.row]! * view.zoom * lettersShare);
    const bodies = bodiesOf(bar, geometry);
    const top = bodies[0]!.top * view.zoom + view.y;
    const bottom = top + bodies[0]!.height * view.zoom;
    if (bottom < 0 || top > view.height) continue;
    const weight = concept.traced >= 1 ? 600 : 400;
    const name =
      concept.traced >= 1 ? `${concept.name} ${shortCount(concept.traced)}` : concept.name;
    if (size < leastLetters) {
      const wanted = bar.id === options.chosen || ringsOf(concept.traced) > 0;
      if (!wanted) continue;
      const letters = bar.id === options.chosen ? 13 : 10;
      const width = measure(name, letters, 600) + 2 * pad;
      const [left, right] = [toX(bodies[0]!.left), toX(bodies.at(-1)!.left + bodies.at(-1)!.width)];
      if (right < options.left || left > view.width) continue;
      const from = Math.max(options.left + 2, Math.min(left, view.width - width - 2));
      const middle = (top + bottom) / 2;
      over.push({
        bar: i,
        text: name,
        whole: true,
        again: false,
        piece: '',
        pieceLeft: 0,
        size: letters,
        weight: 600,
        kind: 'over',
        left: from,
        right: from + width,
        top: middle - letters * 0.7,
        bottom: middle + letters * 0.7,
      });
      continue;
    }

    const full = measure(name, size, weight);
    const rooms = bodies.flatMap((body, k) => {
      const left = Math.max(toX(body.left), options.left) + pad;
      if (left > Math.min(toX(body.left + body.width), view.width)) return [];
      // Over the ground beside it, or its own thread, a name may run on to the next bar.
      const stop = starts[bar.row]!.find(({ at, bar: other }) => other !== i && at > body.left);
      const end = toX(stop?.at ?? geometry.width) - (stop ? pad + stop.rings * ringStep : pad);
      const next = bodies[k + 1];
      const room = Math.min(end, view.width) - left;
      return [{ left, room, alone: Math.min(room, next ? toX(next.left) - left - pad : room) }];
    });
    const best =
      rooms.find(({ alone }) => alone >= full) ??
      rooms.reduce<(typeof rooms)[number] | undefined>(
        (most, each) => (most && most.room >= Math.min(each.room, full) ? most : each),
        undefined,
      );
    if (!best || best.room < Math.min(leastRoom, full)) continue;
    const text = cut(name, best.room, full);
    const width = Math.min(best.room, text === name ? full : measure(text, size, weight));
    const pieceLeft = best.left + width + size;
    const pieceRoom = best.left + best.room - pieceLeft;
    const piece =
      withPieces && text === name && concept.missingPiece !== '' && pieceRoom >= leastPieceRoom
        ? cut(concept.missingPiece, pieceRoom, measure(concept.missingPiece, size * 0.9, 400))
        : '';
    on.push({
      bar: i,
      text,
      whole: text === name,
      again: false,
      piece,
      pieceLeft,
      size,
      weight,
      kind: 'on',
      left: best.left,
      right: piece === '' ? best.left + width : best.left + best.room,
      top,
      bottom,
    });
    if (geometry.lens === 'whole') continue;
    for (const { left, alone } of rooms) {
      if (left === best.left || alone < leastAgain) continue;
      const fitting = cut(name, alone, full);
      again.push({
        ...on.at(-1)!,
        text: fitting,
        whole: fitting === name,
        again: true,
        piece: '',
        weight: 400,
        left,
        right: left + Math.min(alone, full),
      });
    }
  }

  over.sort(
    (a, b) =>
      Number(bars[b.bar]!.id === options.chosen) - Number(bars[a.bar]!.id === options.chosen) ||
      picture.concepts[b.bar]!.traced - picture.concepts[a.bar]!.traced,
  );
  const all = [...on, ...over, ...again];
  return placeLabels(all).map((k) => all[k]!);
}

/** Traced misses as they stand after a name. */
const shortCount = (traced: number) => String(Math.round(traced));

/** As much of a text as goes into the room, by its average letter; the whole where it fits. */
function cut(text: string, room: number, full: number): string {
  if (full <= room) return text;
  const letters = Math.floor((text.length * room) / full) - 1;
  return `${text.slice(0, Math.max(1, letters)).trimEnd()}…`;
}

interface Start {
  /** Left edge of a body, in units of the plane. */
  readonly at: number;
  readonly bar: number;
  readonly rings: number;
}

/** For each row, the bodies in it from left to right. */
function startsOf(picture: Picture, geometry: Geometry): readonly (readonly Start[])[] {
  const known = kept.get(geometry);
  if (known) return known;
  const starts: Start[][] = Array.from({ length: picture.section.rowCount }, () => []);
  picture.section.bars.forEach((bar, i) => {
    const rings = ringsOf(picture.concepts[i]!.traced);
    for (const { left } of bodiesOf(bar, geometry))
      starts[bar.row]!.push({ at: left, bar: i, rings });
  });
  for (const row of starts) row.sort((a, b) => a.at - b.at);
  kept.set(geometry, starts);
  return starts;
}

/** Worked out once for a geometry, since names are placed on every frame. */
const kept = new WeakMap<Geometry, readonly (readonly Start[])[]>();
