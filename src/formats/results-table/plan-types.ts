/** What an import would do, before anything is done. */
import type { OrganSystem } from '../../model/concept-map';
import type { BlockId, ConceptId } from '../../model/ids';
import type { Block, Item } from '../../model/log';
import type { NamedConcept, RememberedMatch, TopicSuggestion } from '../../model/match-topics';
import type { LocalDay } from '../../model/time';
import type { FileNote } from '../file-fault';
import type { DayOrder } from './dates';
import type { RowFault } from './table-rows';

/** What planning needs to know beside the table. */
export interface ImportContext {
  readonly concepts: readonly NamedConcept[];
  readonly systems: readonly Pick<OrganSystem, 'id' | 'name' | 'shortName'>[];
  /** Topic names that were matched by hand before. */
  readonly remembered: readonly RememberedMatch[];
  readonly answers?: ImportAnswers;
  /** Days after it are pointed out. */
  readonly today?: LocalDay;
  /** What is in the log already, so that the same rows do not come in twice. */
  readonly log?: LoggedItems;
  /** For blocks whose rows do not say: as in the last block, for example. */
  readonly defaults?: {
    readonly timed?: boolean;
    readonly mixed?: boolean;
    readonly source?: string;
  };
}

/** The log in the short form that planning compares rows with. */
export interface LoggedItems {
  readonly blocks: readonly Pick<Block, 'id' | 'day'>[];
  readonly items: readonly LoggedItem[];
}

export interface LoggedItem extends Pick<
  Item,
  'position' | 'outcome' | 'topics' | 'causes' | 'reference'
> {
  /** Index of its block in `blocks`. */
  readonly blockIndex: number;
}

/** Answers to the questions a plan may ask; each is read only where it is needed. */
export interface ImportAnswers {
  readonly dayOrder?: DayOrder;
  /** The day of every row, for a table without dates. */
  readonly day?: LocalDay;
  /** Rows without a date below rows with one. */
  readonly emptyDates?: 'as-above' | 'leave-out';
  /** What yes, 1 or a mark says in the outcome column. */
  readonly markMeans?: 'right' | 'missed';
  /** What an empty cell says in an outcome column that holds marks only. */
  readonly blankMeans?: 'right' | 'missed' | 'leave-out';
  /** Rows that are in the log already; left out unless said otherwise. */
  readonly inLog?: 'leave-out' | 'bring-in';
}

/** A question that only the candidate can answer; `kind` names the answer's field, save for columns. */
export type ImportQuestion =
  /** No column says right or missed, and none holds the option chosen and the key. */
  | { readonly kind: 'outcome-column' }
  /** No column holds dates: name one, or answer `day`. */
  | { readonly kind: 'day' }
  | {
      readonly kind: 'dayOrder';
      readonly column: string;
      readonly examples: readonly string[];
      /** True when some dates fit only one order and some only the other. */
      readonly mixed: boolean;
    }
  | { readonly kind: 'emptyDates'; readonly column: string; readonly rows: number }
  | { readonly kind: 'markMeans'; readonly column: string; readonly examples: readonly string[] }
  | { readonly kind: 'blankMeans'; readonly column: string; readonly rows: number };

export type ItemContent = Omit<Item, 'id' | 'block' | 'stamp'>;

export interface ItemDraft {
  /** Row of the file, from 1, header counted. */
  readonly row: number;
  readonly content: ItemContent;
}

export type BlockContent = Omit<Block, 'id' | 'startedAt' | 'stamp'>;

export interface BlockDraft {
  readonly content: BlockContent;
  /** As the file names it; empty where it does not. */
  readonly label: string;
  /** Minutes after local midnight at which it began; the instant needs a zone. */
  readonly startMinutes?: number;
  /** The block of the log that these items belong to: its other rows are there already. */
  readonly joins?: BlockId;
  readonly items: readonly ItemDraft[];
}

export interface UnmatchedTopic {
  /** As first written. */
  readonly name: string;
  readonly folded: string;
  /** Rows that name it, those that do not come in left aside. */
  readonly rows: number;
  readonly missedRows: number;
  /** Nearest concepts; empty beyond the most frequent names (see `suggestedNames`). */
  readonly suggestions: readonly TopicSuggestion[];
}

export interface AmbiguousTopic {
  readonly name: string;
  readonly folded: string;
  readonly rows: number;
  readonly candidates: readonly ConceptId[];
}

/** A row that the log holds already. */
export interface LoggedRow {
  /** As in the file, from 1, header counted. */
  readonly row: number;
  readonly day: LocalDay;
  /** Item number within the block. */
  readonly position: number;
  /** What gave it away. */
  readonly by: 'reference' | 'contents';
}

export interface ImportTotals {
  /** Rows with anything in them, the header left aside. */
  readonly rowsRead: number;
  readonly rowsRejected: number;
  /** Rows left out because the log holds them already. */
  readonly rowsInLog: number;
  readonly blankRows: number;
  readonly blocks: number;
  /** Items that come in; right + guessedRight + missed. */
  readonly items: number;
  readonly right: number;
  readonly guessedRight: number;
  readonly missed: number;
  readonly itemsWithTopics: number;
  readonly missesWithCauses: number;
}

export interface ImportPlan {
  readonly kind: 'plan';
  /** In the order of their first rows. */
  readonly blocks: readonly BlockDraft[];
  /** Most frequent first. */
  readonly unmatched: readonly UnmatchedTopic[];
  readonly ambiguous: readonly AmbiguousTopic[];
  readonly unmatchedSystems: readonly { readonly name: string; readonly rows: number }[];
  /** Rows that do not come in, in the order of the file. */
  readonly rejected: readonly RowFault[];
  /** Cells that do not come in though their row does, in the order of the file. */
  readonly leftOut: readonly RowFault[];
  /** Rows that are in the log already, in the order of the file; whether they come in, the answers say. */
  readonly inLog: readonly LoggedRow[];
  readonly notes: readonly FileNote[];
  readonly totals: ImportTotals;
}

export interface ImportQuestions {
  readonly kind: 'questions';
  readonly questions: readonly ImportQuestion[];
}

export interface PlanProgress {
  readonly rowsDone: number;
  readonly rowsTotal: number;
}
