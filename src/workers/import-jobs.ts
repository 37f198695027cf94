/** The jobs of the import worker: read a table, plan its import, hand the plan over in slices. */
import {
  decodeTextFile,
  guessColumns,
  planImportSteps,
  readTable,
  type BlockDraft,
  type ColumnMapping,
  type FileFault,
  type FileNote,
  type GuessedColumns,
  type ImportContext,
  type ImportPlan,
  type ImportQuestions,
  type Table,
} from '../formats';
import type { JobHandlers } from './serve-jobs';

export type ImportSource =
  | { readonly kind: 'bytes'; readonly bytes: ArrayBuffer }
  | { readonly kind: 'text'; readonly text: string };

/** A table as the mapping step shows it; the rows stay in the worker. */
export interface TableView {
  readonly kind: 'table';
  readonly header: readonly string[];
  readonly rowCount: number;
  /** The first rows, for the reader to recognise the columns by. */
  readonly sample: readonly (readonly string[])[];
  readonly guessed: GuessedColumns;
  readonly notes: readonly FileNote[];
}

/** A plan without its items, which are handed over once they are wanted. */
export type PlanView = Omit<ImportPlan, 'blocks'> & { readonly blockCount: number };

// A type alias, not an interface: only an alias fits the open `Jobs` record.
export type ImportJobs = {
  read: { input: ImportSource; output: TableView | FileFault };
  plan: {
    input: { readonly mapping: ColumnMapping; readonly context: ImportContext };
    output: PlanView | ImportQuestions;
  };
  /** Blocks `from` up to but not including `to` of the last plan. */
  slice: { input: { readonly from: number; readonly to: number }; output: readonly BlockDraft[] };
};

/** Rows of the table that the page is shown. */
const sampleRows = 5;

/** Lets messages in, among them the wish to stop, between two steps of a long job. */
const breathe = () => new Promise<void>((resolve) => setTimeout(resolve));

/** The handlers of one import worker, sharing the table and the last plan. */
export function importJobs(): JobHandlers<ImportJobs> {
  let table: Table | undefined;
  let blocks: readonly BlockDraft[] = [];

  return {
    read(source) {
      table = undefined;
      blocks = [];
      const file =
        source.kind === 'text'
          ? { kind: 'text' as const, text: source.text, notes: [] }
          : decodeTextFile(new Uint8Array(source.bytes));
      if (file.kind === 'fault') return file;
      const read = readTable(file.text, { pasted: source.kind === 'text' });
      if (read.kind === 'fault') return read;
      table = read;
      return {
        kind: 'table',
        header: read.header,
        rowCount: read.rows.length,
        sample: read.rows.slice(0, sampleRows).map(({ cells }) => cells),
        guessed: guessColumns(read),
        notes: [...file.notes, ...read.notes],
      };
    },

    async plan({ mapping, context }, job) {
      if (!table) throw new Error('plan: no table was read; need `read` before it');
      const steps = planImportSteps(table, mapping, context);
      for (;;) {
        const step = steps.next();
        if (step.done) {
          const plan = step.value;
          if (plan.kind === 'questions') return plan;
          const { blocks: planned, ...view } = plan;
          blocks = planned;
          return { ...view, blockCount: planned.length };
        }
        job.progress(step.value.rowsDone, step.value.rowsTotal);
        await breathe();
        // Nobody waits for the result any more; the one of a newer job counts.
        if (job.stopped()) return { kind: 'questions', questions: [] };
      }
    },

    slice({ from, to }) {
      return blocks.slice(from, to);
    },
  };
}
