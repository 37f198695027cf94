/**
 * One rehearsal under way: the clock, what is typed, the comparison. It is stored from its first
 * second on, so that a crash takes little; without lines it counts as not compared yet.
 */
import { compareSheet, type SheetComparison } from '../engine';
import type { LineId, RehearsalId } from '../model/ids';
import type { Rehearsal } from '../model/kept-beside';
import type { SheetLine } from './sheet.svelte';
import { failureText } from './steps';
import type { CommitResult, Workspace } from './workspace.svelte';

export type Manner = Rehearsal['manner'];

/** Time between two saves of what is being typed. */
const saveEveryMs = 1_000;
const label = 'rehearse the recall sheet';

export class Rehearsing {
  readonly #workspace: Workspace;
  readonly #id: RehearsalId;
  readonly manner: Manner;
  /** Seconds on the clock before it was last started. */
  #before: number;
  #startedAt: number;
  #now = $state(0);
  #lastSave = 0;
  /** Seconds at which it was ended. */
  #ended = $state<number>();
  text = $state('');
  failure = $state<string>();
  comparison = $state.raw<SheetComparison>();
  /** How much of each line was there, 0 to 1; ticks by hand overrule the comparison. */
  shares = $state.raw<ReadonlyMap<LineId, number>>(new Map());

  /** Begins a rehearsal, or goes on with one that was not compared. */
  constructor(workspace: Workspace, manner: Manner, unfinished?: Rehearsal) {
    this.#workspace = workspace;
    this.manner = unfinished?.manner ?? manner;
    this.#id = unfinished?.id ?? workspace.makeId();
    this.#before = unfinished?.seconds ?? 0;
    this.text = unfinished?.text ?? '';
    this.#startedAt = workspace.now;
    this.#now = this.#startedAt;
    void this.#save(false);
  }

  /** Seconds on the clock. */
  get seconds(): number {
    return this.#ended ?? this.#before + Math.max(0, this.#now - this.#startedAt) / 1000;
  }

  get ended(): boolean {
    return this.#ended !== undefined;
  }

  /** Moves the clock; to be called every second or so. */
  tick(): void {
    if (this.ended) return;
    this.#now = this.#workspace.now;
    if (this.#now - this.#lastSave >= saveEveryMs) void this.#save();
  }

  /** Ends the writing. Typed text is compared at once; on paper every line waits for its tick. */
  end(lines: readonly SheetLine[]): void {
    this.#now = this.#workspace.now;
    this.#ended = this.seconds;
    if (this.manner === 'typed') {
      this.comparison = compareSheet(
        lines.map(({ line }) => ({ id: line.id, text: line.text, kind: line.kind })),
        this.text,
      );
      this.shares = new Map(this.comparison.lines.map(({ id, share }) => [id as LineId, share]));
    } else this.shares = new Map(lines.map(({ line }) => [line.id, 0]));
    void this.#save();
  }

  mark(line: LineId, share: number): void {
    this.shares = new Map(this.shares).set(line, share);
  }

  /** Keeps times and losses. @returns whether it was stored */
  async keep(): Promise<CommitResult> {
    const lines = Array.from(this.shares, ([line, share]) => ({ line, share }));
    return this.#store({ ...this.#record(), lines }, 'keep a rehearsal', false);
  }

  throwAway(): Promise<CommitResult> {
    return this.#workspace.commit('throw a rehearsal away', [
      { kind: 'rehearsals', remove: this.#id },
    ]);
  }

  #record() {
    const stored = this.#workspace.of('rehearsals').find(this.#id);
    return {
      id: this.#id,
      at: stored?.at ?? this.#workspace.now,
      seconds: Math.min(86_400, this.seconds),
      manner: this.manner,
      text: this.text,
      lines: [],
    };
  }

  async #save(typing = true): Promise<void> {
    this.#lastSave = this.#workspace.now;
    const result = await this.#store(this.#record(), label, typing);
    this.failure = failureText(result);
  }

  #store(put: Omit<Rehearsal, 'stamp'>, what: string, typing: boolean): Promise<CommitResult> {
    return this.#workspace.commit(what, [{ kind: 'rehearsals', put }], { typing });
  }
}
