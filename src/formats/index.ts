/** The public door of the formats layer: open formats in and out. */
export { writeCsv, type CsvValue } from './csv-write';
export { parseDemoFile, type DemoContent } from './demo-file';
export { type FileFault, type FileFaultKind, type FileNote } from './file-fault';
export { writeCalendar, type CalendarEvent, type CalendarTime } from './icalendar';
export {
  parseMapFile,
  type ConceptContent,
  type DisciplineContent,
  type MapContent,
  type SystemContent,
} from './map-file';
export { findLoop } from './find-loop';
export { parseReadingsFile, type ReadingContent } from './readings-file';
export {
  readReadingList,
  type ReadingList,
  type ReadingListFault,
  type ReadingRow,
} from './reading-list';
export {
  guessColumns,
  withField,
  type ColumnMapping,
  type GuessedColumns,
} from './results-table/columns';
export { type DayOrder } from './results-table/dates';
export {
  fieldLabels,
  repeatableFields,
  resultFields,
  type ResultField,
} from './results-table/fields';
export { planImport, planImportSteps, suggestedNames } from './results-table/plan';
export type {
  AmbiguousTopic,
  BlockContent,
  BlockDraft,
  ImportAnswers,
  ImportContext,
  ImportPlan,
  ImportQuestion,
  ImportQuestions,
  ImportTotals,
  ItemContent,
  ItemDraft,
  LoggedItem,
  LoggedItems,
  LoggedRow,
  PlanProgress,
  UnmatchedTopic,
} from './results-table/plan-types';
export { readTable, type ReadTableOptions, type Table } from './results-table/table';
export {
  delimiters,
  type Delimiter,
  type RowFault,
  type TableRow,
} from './results-table/table-rows';
export { decodeTextFile, defaultByteLimit, type TextEncoding, type TextFile } from './text-file';
export {
  readBackup,
  type BackupFault,
  type BackupReading,
  type Digest,
} from './backup/read-backup';
export {
  planRestore,
  type KindCounts,
  type NamedChange,
  type RestoreMode,
  type RestorePlan,
} from './backup/restore-plan';
export { writeBackup, type BackupContent, type PictureFile } from './backup/write-backup';
export { missesCsv } from './misses-csv';
export { writeGraphml } from './graphml-write';
export { triplesOfMap } from './skos/map-triples';
export { meetMap, type KnownMap, type KnownName, type MetMap } from './skos/meet-map';
export { readJsonLd, readTurtle, type ReadTriples } from './skos/read';
export { mapFromTriples, type SkosMap, type SkosOptions } from './skos/to-map';
export { writeJsonLd, writeTurtle } from './skos/write';
export {
  noteFiles,
  readNoteFile,
  type NoteFile,
  type NoteFileReading,
  type ReadNote,
} from './notes-folder';
