/** The door of backups. */
export { readBackup, type BackupFault, type BackupReading, type Digest } from './read-backup';
export { planRestore, type KindCounts, type RestoreMode, type RestorePlan } from './restore-plan';
export { writeBackup, type BackupContent, type PictureFile } from './write-backup';
