/**
 * Bringing in a results table: from a file to a previewed plan to one undoable
 * step. Nothing is stored before `commit`.
 */
import {
  fieldLabels,
  resultFields,
  withField,
  type ColumnMapping,
  type FileFault,
  type ImportAnswers,
  type ImportQuestions,
  type ResultField,
  type UnmatchedTopic,
} from '../formats';
import type { WorkerClient } from '../workers/client';
import type { ImportJobs, ImportSource, PlanView, TableView } from '../workers/import-jobs';
import {
  blockChanges,
  decisionChanges,
  importContext,
  withoutUnused,
  type ImportChoices,
  type TopicDecision,
} from './import-changes';
import { mappingChanges, rememberedMapping } from './kept-mappings';
import { newConcept } from './new-records';
import type { CommitResult, Draft, DraftChange, Workspace } from './workspace.svelte';

export type {
  AmbiguousTopic,
  FileFault,
  FileNote,
  ImportAnswers,
  ImportQuestion,
  LoggedRow,
  ResultField,
  RowFault,
  UnmatchedTopic,
} from '../formats';
export type { PlanView, TableView } from '../workers/import-jobs';
export type { TopicDecision } from './import-changes';

export type ImportStage =
  | { readonly kind: 'choosing'; readonly fault?: FileFault }
  | { readonly kind: 'reading' }
  | { readonly kind: 'mapping' }
  | { readonly kind: 'saving' };

/** Fields a column can hold, as the mapping step lists them. */
export const columnFields: readonly { readonly field: ResultField; readonly label: string }[] =
  resultFields.map((field) => ({ field, label: fieldLabels[field] }));

const noPlan = {
  kind: 'failed',
  message: 'There is no plan to bring in: look at the table again.',
} as const;

/** Blocks handed over by the worker at a time: each slice is a short task for the page. */
const sliceBlocks = 25;

export class Importer {
  readonly #workspace: Workspace;
  readonly #client: WorkerClient<ImportJobs>;
  #stage = $state.raw<ImportStage>({ kind: 'choosing' });
  #name = $state('');
  #table = $state.raw<TableView>();
  #mapping = $state.raw<ColumnMapping>({ fields: [] });
  #answers = $state.raw<ImportAnswers>({});
  #decisions = $state.raw<ReadonlyMap<string, TopicDecision>>(new Map());
  #newSystems = $state.raw<readonly Draft<'systems'>[]>([]);
  #plan = $state.raw<PlanView | ImportQuestions>();
  /** Whether the plan holds every answer and decision made so far. */
  #planned = false;
  #source: (() => Promise<ImportSource>) | undefined;
  /** Files that come after this one. */
  #waiting = $state.raw<readonly File[]>([]);
  /** Whether the columns are read as they were in an earlier file of this kind. */
  #asBefore = $state(false);
  #failure = $state('');
  #progress = $state.raw<{ readonly done: number; readonly total: number }>();
  #stop = new AbortController();

  constructor(workspace: Workspace, client: WorkerClient<ImportJobs>) {
    this.#workspace = workspace;
    this.#client = client;
  }

  get stage(): ImportStage {
    return this.#stage;
  }

  /** The file's name, or "pasted text". */
  get name(): string {
    return this.#name;
  }

  get table(): TableView | undefined {
    return this.#table;
  }

  get mapping(): ColumnMapping {
    return this.#mapping;
  }

  get answers(): ImportAnswers {
    return this.#answers;
  }

  get decisions(): ReadonlyMap<string, TopicDecision> {
    return this.#decisions;
  }

  /** What would come in, or what has to be answered first; undefined while it is worked out. */
  get plan(): PlanView | ImportQuestions | undefined {
    return this.#plan;
  }

  get failure(): string {
    return this.#failure;
  }

  get progress(): { readonly done: number; readonly total: number } | undefined {
    return this.#progress;
  }

  /** Names of the files that come after this one. */
  get waiting(): readonly string[] {
    return this.#waiting.map(({ name }) => name);
  }

  /** Whether the columns are read as they were in an earlier file with this header. */
  get asBefore(): boolean {
    return this.#asBefore;
  }

  /** Opens the first and keeps the others for afterwards: each is looked at on its own. */
  async openFiles(files: readonly File[]): Promise<void> {
    const [first, ...others] = files;
    if (!first) return;
    const busy = this.#stage.kind === 'mapping' || this.#stage.kind === 'saving';
    if (busy) {
      // What is on the table stays there; more files join the row.
      this.#waiting = [...this.#waiting, ...files];
      return;
    }
    this.#waiting = [...this.#waiting, ...others];
    await this.openFile(first);
  }

  /** Opens the file that is next in the row; false when there is none. */
  async openNext(): Promise<boolean> {
    const [next, ...others] = this.#waiting;
    if (!next) return false;
    this.#waiting = others;
    await this.openFile(next);
    return true;
  }

  /** Forgets the files that have not been opened yet. */
  forgetWaiting(): void {
    this.#waiting = [];
  }

  openText(text: string): Promise<void> {
    return this.#open('pasted text', () => Promise.resolve({ kind: 'text', text }));
  }

  openFile(file: File): Promise<void> {
    return this.#open(file.name, async () => ({ kind: 'bytes', bytes: await file.arrayBuffer() }));
  }

  /** Back to the beginning; nothing was stored. */
  startOver(): void {
    this.#stop.abort();
    this.#stop = new AbortController();
    this.#stage = { kind: 'choosing' };
    this.#table = undefined;
    this.#source = undefined;
    this.#plan = undefined;
    this.#planned = false;
    this.#failure = '';
    this.#progress = undefined;
    this.#answers = {};
    this.#decisions = new Map();
    this.#newSystems = [];
    this.#asBefore = false;
  }

  /** Stops what is under way: reading, planning or saving. */
  stop(): void {
    this.#stop.abort();
  }

  setField(column: number, field: ResultField | null): Promise<void> {
    this.#mapping = withField(this.#mapping, column, field);
    return this.replan();
  }

  answer(answers: ImportAnswers): Promise<void> {
    this.#answers = { ...this.#answers, ...answers };
    return this.replan();
  }

  /** Decides what a topic name means; undefined leaves it undecided. */
  decide(folded: string, decision: TopicDecision | undefined): Promise<void> {
    const next = new Map(this.#decisions);
    if (decision) next.set(folded, decision);
    else next.delete(folded);
    this.#decisions = next;
    return this.replan();
  }

  /** Makes a concept of each name. */
  makeConcepts(topics: readonly UnmatchedTopic[]): Promise<void> {
    const next = new Map(this.#decisions);
    for (const { folded, name } of topics) {
      next.set(folded, {
        kind: 'new',
        draft: newConcept(this.#workspace.makeId(), name, undefined),
      });
    }
    this.#decisions = next;
    return this.replan();
  }

  /** Makes an organ system of each name. */
  makeSystems(names: readonly string[]): Promise<void> {
    const made = names.map((name) => ({ id: this.#workspace.makeId<'system'>(), name }));
    this.#newSystems = [...this.#newSystems, ...made];
    return this.replan();
  }

  /** Works the plan out again from the table, the mapping, the answers and the decisions. */
  async replan(): Promise<void> {
    if (!this.#table) return;
    this.#planned = false;
    this.#progress = undefined;
    const signal = this.#freshSignal();
    let result = await this.#runPlan(signal);
    if (result.kind === 'failed' && (await this.#readAgain(signal))) {
      result = await this.#runPlan(signal);
    }
    if (result.kind === 'superseded' || result.kind === 'stopped') return;
    this.#progress = undefined;
    this.#failure = result.kind === 'failed' ? result.message : '';
    if (result.kind === 'done') {
      this.#plan = result.output;
      this.#planned = true;
    }
  }

  /** Stores the plan as one step: all of it or nothing. */
  async commit(): Promise<CommitResult> {
    const signal = this.#freshSignal();
    this.#stage = { kind: 'saving' };
    const result = await this.#bringIn(signal);
    this.#progress = undefined;
    if (result.kind === 'saved') this.startOver();
    else this.#stage = { kind: 'mapping' };
    return result;
  }

  async #bringIn(signal: AbortSignal): Promise<CommitResult> {
    // A decision made just before may still be on its way into the plan.
    const plan = await this.#currentPlan();
    if (!plan) return signal.aborted ? { kind: 'stopped' } : noPlan;
    this.#progress = { done: 0, total: plan.totals.items };
    const changes = (await this.#changesOf(plan, signal)) ?? (await this.#changesAgain(signal));
    if (signal.aborted) return { kind: 'stopped' };
    if (!changes) return noPlan;
    return this.#workspace.commit(`bring in ${plan.totals.items} items`, changes, {
      signal,
      onprogress: (done, total) => (this.#progress = { done, total }),
    });
  }

  /** The plan with every answer and decision in it; undefined where there are questions left. */
  async #currentPlan(): Promise<PlanView | undefined> {
    if (!this.#planned) await this.replan();
    return this.#planned && this.#plan?.kind === 'plan' ? this.#plan : undefined;
  }

  /** The changes once more after the worker lost them: its table and plan are made anew. */
  async #changesAgain(signal: AbortSignal): Promise<DraftChange[] | undefined> {
    if (signal.aborted) return undefined;
    this.#planned = false;
    const plan = await this.#currentPlan();
    return plan && this.#changesOf(plan, signal);
  }

  /** The changes a plan stands for; undefined when it was stopped or the worker has lost the plan. */
  async #changesOf(plan: PlanView, signal: AbortSignal): Promise<DraftChange[] | undefined> {
    const changes = decisionChanges(this.#workspace, this.#choices());
    const table = this.#table;
    if (table) changes.push(...mappingChanges(this.#workspace, this.#name, table, this.#mapping));
    let blocks = 0;
    while (blocks < plan.blockCount) {
      const range = { from: blocks, to: blocks + sliceBlocks };
      const slice = await this.#client.run('slice', range, { signal });
      if (slice.kind !== 'done' || slice.output.length === 0) return undefined;
      for (const block of slice.output) changes.push(...blockChanges(this.#workspace, block));
      blocks += slice.output.length;
    }
    return withoutUnused(changes);
  }

  #choices(): ImportChoices {
    return {
      answers: this.#answers,
      decisions: this.#decisions,
      newSystems: this.#newSystems,
    };
  }

  #runPlan(signal: AbortSignal) {
    return this.#client.run(
      'plan',
      { mapping: this.#mapping, context: importContext(this.#workspace, this.#choices()) },
      { signal, onprogress: (done, total) => (this.#progress = { done, total }) },
    );
  }

  /** Reads the table again for a worker that was started afresh; true when it is there again. */
  async #readAgain(signal: AbortSignal): Promise<boolean> {
    const read = this.#source && (await this.#read(this.#source, signal));
    return read?.kind === 'table';
  }

  /** The signal of the next piece of work; one that was stopped does not stop what comes after. */
  #freshSignal(): AbortSignal {
    if (this.#stop.signal.aborted) this.#stop = new AbortController();
    return this.#stop.signal;
  }

  async #open(name: string, source: () => Promise<ImportSource>): Promise<void> {
    this.startOver();
    this.#name = name;
    this.#source = source;
    this.#stage = { kind: 'reading' };
    const { signal } = this.#stop;
    const read = await this.#read(source, signal);
    // Another table was opened since: its own reading goes on.
    if (signal !== this.#stop.signal) return;
    if (signal.aborted) {
      this.startOver();
      return;
    }
    if (read.kind === 'fault') {
      this.#stage = { kind: 'choosing', fault: read };
      return;
    }
    this.#table = read;
    const before = rememberedMapping(this.#workspace, read.header);
    this.#asBefore = before !== undefined;
    this.#mapping = before ?? read.guessed;
    this.#stage = { kind: 'mapping' };
    await this.replan();
  }

  async #read(
    source: () => Promise<ImportSource>,
    signal: AbortSignal,
  ): Promise<TableView | FileFault> {
    let opened: ImportSource;
    try {
      opened = await source();
    } catch {
      // The file was moved, or the permission to read it withdrawn, since it was chosen.
      return fault('The file can no longer be read.', 'Choose it once more.');
    }
    const transfer = opened.kind === 'bytes' ? [opened.bytes] : [];
    const result = await this.#client.run('read', opened, { signal, transfer });
    if (result.kind === 'done') return result.output;
    return fault(
      result.kind === 'failed' ? result.message : 'Reading was stopped.',
      opened.kind === 'text' ? 'Reload the page and paste it again.' : 'Open the file again.',
    );
  }
}

function fault(message: string, mend: string): FileFault {
  return { kind: 'fault', fault: 'binary', message, mend };
}
