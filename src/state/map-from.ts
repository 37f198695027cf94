/** From a shipped map or the text of a map file to what it would change. */
import { parseMapFile, parseReadingsFile } from '../formats';
import { planMapChange, type MapChangeManner, type PlannedMapChange } from './map-change';
import type { Workspace } from './workspace.svelte';

/** @param source the parts of a shipped map, or the text of a map file in one part */
export function planMapFrom(
  workspace: Workspace,
  source: readonly unknown[] | string,
  readings: unknown,
  manner: MapChangeManner,
): PlannedMapChange {
  const parts = typeof source === 'string' ? partsOf(source) : source;
  if (!parts) {
    return { kind: 'refused', message: 'This is not JSON: choose a map file of Hypocentre.' };
  }
  const map = parseMapFile(parts);
  if (map.kind === 'rejected') {
    const fault = map.faults[0];
    const more = map.faults.length > 1 ? ` There are ${map.faults.length - 1} more faults.` : '';
    return {
      kind: 'refused',
      message: `The map cannot be read. ${fault ? `${fault.path}: ${fault.message}.` : ''}${more}`,
    };
  }
  const read = readings === undefined ? undefined : parseReadingsFile(readings);
  const there = {
    disciplines: workspace.of('disciplines').live,
    systems: workspace.of('systems').live,
    concepts: workspace.of('concepts').live,
    blocks: workspace.of('blocks').live,
    items: workspace.of('items').live,
    notes: workspace.of('notes').live,
    lines: workspace.of('lines').live,
    readings: workspace.of('readings').live,
    readingEvents: workspace.of('readingEvents').live,
    topicMatches: workspace.of('topicMatches').live,
  };
  return planMapChange(there, map.value, read?.kind === 'ok' ? read.value : [], manner);
}

function partsOf(text: string): unknown[] | undefined {
  try {
    return [JSON.parse(text) as unknown];
  } catch (error) {
    if (error instanceof SyntaxError) return undefined;
    throw error;
  }
}
