/** Fresh records with the defaults a candidate would expect. */
import type { BlockId, ConceptId, SystemId } from '../model/ids';
import type { Block } from '../model/log';
import type { LocalDay } from '../model/time';
import type { Draft } from './workspace.svelte';

/** A concept that has only a name yet, seen in the system it was met in. */
export function newConcept(
  id: ConceptId,
  name: string,
  system: SystemId | undefined,
): Draft<'concepts'> {
  return {
    id,
    name,
    aliases: [],
    covers: '',
    disciplines: [],
    systems: system ? [system] : [],
    restsOn: [],
  };
}

/** A block like the last one; without one, 40 items in 60 minutes, timed and mixed. */
export function newBlock(id: BlockId, day: LocalDay, last: Block | undefined): Draft<'blocks'> {
  return {
    id,
    day,
    itemCount: last?.itemCount ?? 40,
    minutesGiven: last?.minutesGiven ?? 60,
    timed: last?.timed ?? true,
    mixed: last?.mixed ?? true,
    system: last?.system,
    source: last?.source ?? '',
  };
}
