/** The public door of the formats layer: open formats in and out. */
export { writeCsv, type CsvValue } from './csv-write';
export { parseDemoFile, type DemoContent } from './demo-file';
export { type FileFault, type FileFaultKind, type FileNote } from './file-fault';
export {
  parseMapFile,
  type ConceptContent,
  type DisciplineContent,
  type MapContent,
  type SystemContent,
} from './map-file';
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
  noteFiles,
  readNoteFile,
  type NoteFile,
  type NoteFileReading,
  type ReadNote,
} from './notes-folder';
