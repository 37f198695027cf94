/**
 * Bringing in a results table: from a file to a previewed plan to one undoable
 * step. Nothing is stored before `commit`.
 */
import {
  fieldLabels,
  resultFields,
  withField,
  type BlockDraft,
  type ColumnMapping,
  type FileFault,
  type ImportAnswers,
  type ImportQuestions,
  type ResultField,
  type UnmatchedTopic,
} from '../formats';
import type { ConceptId } from '../model/ids';
import { instantOfLocal } from '../model/time';
import type { WorkerClient } from '../workers/client';
import type { ImportJobs, ImportSource, PlanView, TableView } from '../workers/import-jobs';
import { newConcept } from './new-records';
import type { CommitResult, Draft, DraftChange, Workspace } from './workspace.svelte';

export type {
  AmbiguousTopic,
  FileFault,
  FileNote,
  ImportAnswers,
  ImportQuestion,
  ResultField,
  RowFault,
  UnmatchedTopic,
} from '../formats';
export type { PlanView, TableView } from '../workers/import-jobs';

/** What becomes of a topic name that no concept carries. */
export type TopicDecision =
  | { readonly kind: 'concept'; readonly concept: ConceptId }
  | { readonly kind: 'new'; readonly draft: Draft<'concepts'> }
  | { readonly kind: 'leave-out' };

export type ImportStage =
  | { readonly kind: 'choosing'; readonly fault?: FileFault }
  | { readonly kind: 'reading' }
  | { readonly kind: 'mapping' }
  | { readonly kind: 'saving' };

/** Fields a column can hold, as the mapping step lists them. */
export const columnFields: readonly { readonly field: ResultField; readonly label: string }[] =
  resultFields.map((field) => ({ field, label: fieldLabels[field] }));

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
    this.#plan = undefined;
    this.#failure = '';
    this.#progress = undefined;
    this.#answers = {};
    this.#decisions = new Map();
    this.#newSystems = [];
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

  /** Takes back what was decided about names in this table. */
  forgetDecisions(): Promise<void> {
    this.#decisions = new Map();
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
    this.#progress = undefined;
    const { signal } = this.#stop;
    const result = await this.#client.run(
      'plan',
      { mapping: this.#mapping, context: this.#context() },
      { signal, onprogress: (done, total) => (this.#progress = { done, total }) },
    );
    if (result.kind === 'superseded' || result.kind === 'stopped') return;
    this.#progress = undefined;
    this.#failure = result.kind === 'failed' ? result.message : '';
    if (result.kind === 'done') this.#plan = result.output;
  }

  /** Stores the plan as one step: all of it or nothing. */
  async commit(): Promise<CommitResult> {
    const plan = this.#plan;
    if (plan?.kind !== 'plan')
      return { kind: 'failed', message: 'There is no plan to bring in yet.' };
    this.#stop = new AbortController();
    const { signal } = this.#stop;
    this.#stage = { kind: 'saving' };
    this.#progress = { done: 0, total: plan.totals.items };
    const changes = this.#decisionChanges();
    for (let from = 0; from < plan.blockCount; from += sliceBlocks) {
      const slice = await this.#client.run('slice', { from, to: from + sliceBlocks }, { signal });
      if (slice.kind !== 'done') {
        this.#stage = { kind: 'mapping' };
        this.#progress = undefined;
        return slice.kind === 'failed' ? slice : { kind: 'stopped' };
      }
      for (const block of slice.output) changes.push(...this.#blockChanges(block));
    }
    const label = `bring in ${plan.totals.items.toLocaleString('en-GB')} items`;
    const result = await this.#workspace.commit(label, changes, {
      signal,
      onprogress: (done, total) => (this.#progress = { done, total }),
    });
    this.#progress = undefined;
    if (result.kind === 'saved') this.startOver();
    else this.#stage = { kind: 'mapping' };
    return result;
  }

  async #open(name: string, source: () => Promise<ImportSource>): Promise<void> {
    this.startOver();
    this.#name = name;
    this.#stage = { kind: 'reading' };
    const { signal } = this.#stop;
    const read = await this.#read(source, signal);
    if (signal.aborted) return;
    if (read.kind === 'fault') {
      this.#stage = { kind: 'choosing', fault: read };
      return;
    }
    this.#table = read;
    this.#mapping = read.guessed;
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
      'Open the file again.',
    );
  }

  #context(): ImportJobs['plan']['input']['context'] {
    const { concepts, remembered } = this.#names();
    return {
      concepts,
      remembered,
      systems: [...this.#workspace.of('systems').live.values(), ...this.#newSystems].map(
        ({ id, name, shortName }) => ({ id, name, shortName }),
      ),
      answers: this.#answers,
    };
  }

  #names() {
    const made = [...this.#decisions.values()].flatMap((decision) =>
      decision.kind === 'new' ? [decision.draft] : [],
    );
    const concepts = [...this.#workspace.of('concepts').live.values(), ...made].map(
      ({ id, name, aliases }) => ({ id, name, aliases }),
    );
    const decided = Array.from(this.#decisions, ([folded, decision]) => ({
      folded,
      concepts: conceptsOf(decision),
    }));
    const before = [...this.#workspace.of('topicMatches').live.values()]
      .filter(({ folded }) => !this.#decisions.has(folded))
      .map(({ folded, concepts: ids }) => ({ folded, concepts: ids }));
    return { concepts, remembered: [...decided, ...before] };
  }

  /** New concepts and systems, and what was decided by hand, to be remembered. */
  #decisionChanges(): DraftChange[] {
    const changes: DraftChange[] = this.#newSystems.map((put) => ({ kind: 'systems', put }));
    const known = new Map(
      [...this.#workspace.of('topicMatches').live.values()].map((match) => [
        match.folded,
        match.id,
      ]),
    );
    for (const [folded, decision] of this.#decisions) {
      if (decision.kind === 'new') {
        changes.push({ kind: 'concepts', put: decision.draft });
        continue; // found by its own name from now on
      }
      const id = known.get(folded) ?? this.#workspace.makeId<'topic-match'>();
      changes.push({ kind: 'topicMatches', put: { id, folded, concepts: conceptsOf(decision) } });
    }
    return changes;
  }

  #blockChanges({ content, startMinutes, items }: BlockDraft): DraftChange[] {
    const block = this.#workspace.makeId<'block'>();
    const startedAt =
      startMinutes === undefined
        ? undefined
        : instantOfLocal(content.day, startMinutes, this.#workspace.minutesEastOn(content.day));
    return [
      { kind: 'blocks', put: { ...content, id: block, startedAt } },
      ...items.map(({ content: item }): DraftChange => ({
        kind: 'items',
        put: { ...item, id: this.#workspace.makeId(), block },
      })),
    ];
  }
}

function conceptsOf(decision: TopicDecision): ConceptId[] {
  if (decision.kind === 'leave-out') return [];
  return [decision.kind === 'new' ? decision.draft.id : decision.concept];
}

function fault(message: string, mend: string): FileFault {
  return { kind: 'fault', fault: 'binary', message, mend };
}
