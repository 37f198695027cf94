/** A beginning as changes to store: a map, its readings, and the demo's log where that is wanted. */
import {
  parseDemoFile,
  parseMapFile,
  parseReadingsFile,
  type DemoContent,
  type MapContent,
} from '../formats';
import { canonicalText, shortHash } from '../model/merge';
import type { RecordKind } from '../model/records';
import { settingsId, type Settings } from '../model/settings';
import { shippedStamp } from '../model/stamp';
import type { LocalDay } from '../model/time';
import type { Draft, DraftChange } from './workspace.svelte';

export interface BeginningFiles {
  /** The map: its head, then its parts. */
  readonly map: readonly unknown[];
  /** Undefined where the map has none. */
  readonly readings?: unknown;
  /** Undefined for a beginning of one's own. */
  readonly demo?: unknown;
}

/** The changes that lay a beginning out, or what is wrong with its files, as a sentence. */
export function layOut(
  files: BeginningFiles,
  today: LocalDay,
  minutesEastOn: (day: LocalDay) => number,
): DraftChange[] | string {
  const map = parseMapFile(files.map);
  if (map.kind === 'rejected')
    return `The map that came with the app is damaged: ${firstFault(map.faults)}`;
  const changes = mapChanges(map.value);

  if (files.readings !== undefined) {
    const readings = parseReadingsFile(files.readings);
    if (readings.kind === 'rejected')
      return `The readings that came with the app are damaged: ${firstFault(readings.faults)}`;
    changes.push(...readings.value.map((put): DraftChange => shipped({ kind: 'readings', put })));
  }

  if (files.demo === undefined) return [...changes, settingsChange({ demo: false })];
  const demo = parseDemoFile(files.demo, today, minutesEastOn);
  if (demo.kind === 'rejected')
    return `The demo that came with the app is damaged: ${firstFault(demo.faults)}`;
  const { paper } = demo.value;
  return [
    ...changes,
    ...demoChanges(demo.value),
    settingsChange({ demo: true, paperName: paper.name, paperDay: paper.day }),
  ];
}

function firstFault(
  faults: readonly { readonly path: string; readonly message: string }[],
): string {
  const fault = faults[0];
  return fault ? `${fault.path}: ${fault.message}` : 'it could not be read';
}

/** Everything on a map, for a profile that has none yet. */
function mapChanges(map: MapContent): DraftChange[] {
  return [
    ...map.disciplines.map((content, position): DraftChange =>
      shipped({ kind: 'disciplines', put: { position, ...content } }),
    ),
    ...map.systems.map((content, position): DraftChange =>
      shipped({ kind: 'systems', put: { position, ...content } }),
    ),
    ...map.concepts.map((put): DraftChange => shipped({ kind: 'concepts', put })),
  ];
}

/** The change, to be stored with the stamp that its content has on every device. */
const shipped = <C extends { readonly kind: RecordKind; readonly put: object }>(change: C) => ({
  ...change,
  stamp: shippedStamp(shortHash(canonicalText(change.put))),
});

function demoChanges(demo: DemoContent): DraftChange[] {
  return [
    ...demo.blocks.map((put): DraftChange => ({ kind: 'blocks', put })),
    ...demo.items.map((put): DraftChange => ({ kind: 'items', put })),
    ...demo.notes.map((put): DraftChange => ({ kind: 'notes', put })),
    ...demo.readingEvents.map((put): DraftChange => ({ kind: 'readingEvents', put })),
    ...demo.looks.map((put): DraftChange => ({ kind: 'looks', put })),
    ...demo.lines.map((put): DraftChange => ({ kind: 'lines', put })),
    ...demo.rehearsals.map((put): DraftChange => ({ kind: 'rehearsals', put })),
    ...demo.days.map((put): DraftChange => ({ kind: 'days', put })),
  ];
}

function settingsChange(
  chosen: Pick<Settings, 'demo'> & Partial<Pick<Settings, 'paperName' | 'paperDay'>>,
): DraftChange {
  const settings: Draft<'settings'> = {
    id: settingsId,
    theme: 'system',
    paperName: '',
    started: true,
    ...chosen,
  };
  return { kind: 'settings', put: settings };
}
