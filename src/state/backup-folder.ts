/**
 * A folder the person granted once, where the browser allows it: backups go there by themselves,
 * older ones make room, and copies that another device left there can be merged.
 */
import { readLocal, writeLocal, type Store } from '../storage';
import { backupsToDrop, deviceOfBackup } from './backup-rotation';

/** The parts of the browser's directory handle that are used; TypeScript's own types lag behind. */
export interface FolderHandle {
  readonly name: string;
  queryPermission?(options: { mode: 'readwrite' }): Promise<PermissionState>;
  requestPermission?(options: { mode: 'readwrite' }): Promise<PermissionState>;
  getFileHandle(name: string, options?: { create: boolean }): Promise<FileSystemFileHandle>;
  removeEntry(name: string): Promise<void>;
  keys(): AsyncIterable<string>;
}

const handleName = 'backupFolder';

/** Whether this browser can be granted a folder at all. */
export function canPickFolder(scope: object): boolean {
  return 'showDirectoryPicker' in scope;
}

export async function grantedFolder(store: Store): Promise<FolderHandle | undefined> {
  const read = await readLocal(store, handleName);
  return read.kind === 'read' ? (read.value as FolderHandle | undefined) : undefined;
}

export function rememberFolder(store: Store, folder: FolderHandle | undefined) {
  return writeLocal(store, handleName, folder);
}

/** Whether files can be written without asking the person again. */
export async function mayWrite(folder: FolderHandle): Promise<boolean> {
  // A private folder of the browser's own needs no leave and knows no question.
  if (!folder.queryPermission) return true;
  return (await folder.queryPermission({ mode: 'readwrite' })) === 'granted';
}

/**
 * Writes a backup into the folder, then lets older ones of the same device make room.
 *
 * @throws the browser's error when the folder is gone or full; the older backups are still there
 */
export async function writeInto(
  folder: FolderHandle,
  name: string,
  bytes: Uint8Array,
): Promise<void> {
  const file = await folder.getFileHandle(name, { create: true });
  const stream = await file.createWritable();
  await stream.write(bytes as Uint8Array<ArrayBuffer>);
  await stream.close();
  const own = deviceOfBackup(name);
  const names = await backupNames(folder);
  const mine = names.filter((each) => deviceOfBackup(each) === own);
  for (const old of backupsToDrop(mine)) await folder.removeEntry(old);
}

/** The newest backup that another device left in the folder. */
export async function newestOfOthers(
  folder: FolderHandle,
  ownMark: string,
): Promise<File | undefined> {
  const names = await backupNames(folder);
  const name = names.filter((each) => deviceOfBackup(each) !== ownMark).at(-1);
  return name === undefined ? undefined : (await folder.getFileHandle(name)).getFile();
}

/** Backups in the folder, oldest first. */
async function backupNames(folder: FolderHandle): Promise<string[]> {
  const names: string[] = [];
  for await (const name of folder.keys()) if (deviceOfBackup(name) !== undefined) names.push(name);
  return names.sort();
}
