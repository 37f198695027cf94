/** The open database as the rest of the app holds it. */
import type { ChangesChannel } from './changes-channel';
import type { AppDatabase } from './schema';
import type { Spare } from './spare';

export interface Store {
  readonly db: AppDatabase;
  /** How other tabs hear of what is saved here; undefined where there are none. */
  readonly channel: ChangesChannel | undefined;
  /** The second set of files; undefined where none is kept. */
  readonly spare?: Spare | undefined;
}

/** Lets go of the database and of the channel. Work already begun is still finished. */
export function closeStore(store: Store): void {
  store.db.close();
  store.channel?.close();
}
