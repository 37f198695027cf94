/** The public door of storage: the only code that knows IndexedDB is behind it. */
export { applyChanges, type ApplyOptions, type ApplyResult } from './apply-changes';
export type { Change, ChangeOf, Conflict, ConflictOf } from './change';
export {
  mostNames,
  openChangesChannel,
  type Changed,
  type ChangesChannel,
  type ChannelLike,
} from './changes-channel';
export { deleteEverything, type DeleteResult } from './delete-everything';
export { deviceOf, type DeviceResult } from './device';
export type { StorageFailure, StorageFailureKind } from './failure';
export {
  dropKept,
  keepUnread,
  listKept,
  type DropKeptResult,
  type KeepResult,
  type ListKeptResult,
} from './kept';
export { readLocal, writeLocal, type ReadLocalResult, type WriteLocalResult } from './local';
export { openStore, type LostConnection, type OpenOptions, type OpenResult } from './open';
export {
  deletePictureBytes,
  listPictureHashes,
  readPictureBytes,
  writePictureBytes,
  type ListPicturesResult,
  type PictureBytesResult,
  type ReadPictureResult,
} from './picture-bytes';
export { readAll, type ReadAllResult, type RecordsByKind } from './read-all';
export {
  readItemsOfBlock,
  readRecords,
  type LoadedOf,
  type LoadedRecord,
  type ReadItemsResult,
  type ReadRecordsResult,
} from './read-records';
export {
  defaultDatabaseName,
  type KeptEntry,
  type KeptId,
  type PictureBytes,
  type RecordRef,
} from './schema';
export { replaceAll, type ReplaceResult } from './replace-all';
export { readSearchIndex, writeSearchIndex, type SearchIndexChange } from './search-index';
export {
  findSpareFolder,
  readSpare,
  Spare,
  type SpareContent,
  type SpareFolder,
  type SpareLine,
} from './spare';
export { closeStore, type Store } from './store';
