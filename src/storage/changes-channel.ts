/**
 * Tabs tell each other which records they have saved.
 *
 * Only names travel, never contents: whoever hears of a change reads the store,
 * so that all tabs show what is stored and nothing else.
 */
import { checkWith, recordSchemas, type RecordKind } from '../model/records';
import type { RecordRef } from './schema';

/** What changed; `everything` when it is quicker, or safer, to read all again. */
export type Changed = readonly RecordRef[] | 'everything';

/**
 * Above this many names a listener had better read everything: in Chromium one
 * record takes 0.15 ms by its id and 20,000 take 230 ms with getAll, so the two
 * meet near 1,500.
 */
export const mostNames = 1_000;

const format = 'hypocentre-changes';
const formatVersion = 1;

/** The half of a BroadcastChannel that is needed; tests bring their own. */
export interface ChannelLike {
  postMessage(message: unknown): void;
  close(): void;
  onmessage: ((event: MessageEvent) => void) | null;
}

export interface ChangesChannel {
  /**
   * Hears of each batch that another tab has saved, never of our own; one listener,
   * the latest. What is said before there is one waits for it.
   */
  listen(onchanged: (changed: Changed) => void): void;
  /** Tells the other tabs; after `close` it does nothing. */
  tell(changed: Changed): void;
  close(): void;
}

/**
 * Joins the tabs of one database.
 *
 * Open it before reading the working set: a batch saved in between is then
 * heard of, and one heard of twice is read twice, which does no harm.
 */
export function openChangesChannel(channel: ChannelLike): ChangesChannel {
  let open = true;
  let listener: ((changed: Changed) => void) | undefined;
  const unheard: Changed[] = [];
  channel.onmessage = (event) => {
    if (!open) return;
    const changed = parseChanged(event.data);
    if (listener) listener(changed);
    else unheard.push(changed);
  };
  return {
    listen(onchanged) {
      listener = onchanged;
      for (const changed of unheard.splice(0)) onchanged(changed);
    },
    tell(changed) {
      if (!open) return;
      const names = changed.length > mostNames ? 'everything' : changed;
      channel.postMessage({ format, version: formatVersion, changed: names });
    },
    close() {
      open = false;
      channel.close();
    },
  };
}

/**
 * What a message says has changed.
 *
 * A message that cannot be read, from a newer version of the app perhaps, means
 * `everything`: reading too much is slow, reading too little shows stale records.
 */
function parseChanged(message: unknown): Changed {
  if (!isObject(message) || message.format !== format || message.version !== formatVersion) {
    return 'everything';
  }
  if (!Array.isArray(message.changed)) return 'everything';
  const refs = message.changed.map(parseRef);
  return refs.every((ref) => ref !== undefined) ? refs : 'everything';
}

function parseRef(input: unknown): RecordRef | undefined {
  if (!isObject(input) || !isRecordKind(input.kind)) return undefined;
  const id = checkWith(recordSchemas[input.kind].entries.id, input.id);
  return id.kind === 'ok' ? { kind: input.kind, id: id.value } : undefined;
}

function isRecordKind(input: unknown): input is RecordKind {
  return typeof input === 'string' && Object.hasOwn(recordSchemas, input);
}

function isObject(input: unknown): input is Record<string, unknown> {
  return typeof input === 'object' && input !== null;
}
