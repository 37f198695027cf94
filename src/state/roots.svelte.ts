/** The ranking that screens show, kept in step with the log by the trace worker. */
import type { Foretold, HalfLifeChoice, RootExplanation } from '../engine';
import type { ConceptId } from '../model/ids';
import type { WorkerClient } from '../workers/client';
import type { Evidence, Ranking, TraceJobs, TracePatch } from '../workers/trace-jobs';
import { loading, loadOf, type Load } from './load';
import { SentLog, type MadeItems } from './sent-log';
import type { Workspace } from './workspace.svelte';

export type { HalfLifeChoice, RootExplanation } from '../engine';
export type { Evidence, RankedRoot, Ranking } from '../workers/trace-jobs';

/** The log must grow by this factor before the half-life is looked into again. */
const growthBeforeStudy = 1.1;

export class Roots {
  readonly #workspace: Workspace;
  readonly #client: WorkerClient<TraceJobs>;
  /** A second worker: choosing the half-life takes seconds, and tracing must not wait for it. */
  readonly #study: WorkerClient<TraceJobs>;
  readonly #clientLog: SentLog;
  readonly #studyLog: SentLog;
  #ranking = $state.raw<Load<Ranking>>(loading);
  /** Whether what is shown lags behind the log. */
  #behind = $state(true);
  #halfLife = $state.raw<HalfLifeChoice>();
  /** Items there were when the half-life was last chosen. */
  #studiedItems = 0;
  /** How far the careful pass is, from 0 to 1; undefined when none is under way. */
  #sampling = $state<number>();

  readonly #rest: () => Promise<void>;
  /** Tells a later trace from the one that a rest was begun for. */
  #traces = 0;

  /**
   * @param rest ends once the person rests, when the slow passes may begin: they would take the
   *   processor from whoever is just opening the app or writing
   */
  constructor(
    workspace: Workspace,
    client: WorkerClient<TraceJobs>,
    study: WorkerClient<TraceJobs>,
    rest: () => Promise<void> = () => Promise.resolve(),
  ) {
    this.#rest = rest;
    this.#workspace = workspace;
    this.#client = client;
    this.#study = study;
    const made: MadeItems = new WeakMap();
    this.#clientLog = new SentLog(workspace, made);
    this.#studyLog = new SentLog(workspace, made);
  }

  get ranking(): Load<Ranking> {
    return this.#ranking;
  }

  get behind(): boolean {
    return this.#behind;
  }

  /** How fast evidence ages, and why; undefined until it was looked into. */
  get halfLife(): HalfLifeChoice | undefined {
    return this.#halfLife;
  }

  get sampling(): number | undefined {
    return this.#sampling;
  }

  /** A worker lost its memory: everything is sent again next time. */
  forgetSent(): void {
    this.#clientLog.forget();
    this.#studyLog.forget();
  }

  /**
   * Traces the log as it is now: the quick pass at once, then the careful one.
   * An older answer never replaces a newer one. A change that tracing does not look at, such as a
   * letter of a missing piece, asks for nothing.
   */
  async retrace(): Promise<void> {
    const patch = await this.#clientLog.patchIfNews(this.#halfLife?.halfLifeDays);
    if (!patch) return;
    const trace = ++this.#traces;
    this.#behind = true;
    this.#sampling = undefined;
    const result = await this.#client.run('trace', patch);
    if (result.kind === 'superseded' || result.kind === 'stopped') return;
    if (result.kind === 'failed') {
      this.forgetSent();
      this.#ranking = { kind: 'failed', message: result.message };
    } else {
      this.#ranking = { kind: 'ready', value: result.output };
    }
    this.#behind = false;
    if (result.kind !== 'done' || result.output.missCount === 0) return;
    await this.#rest();
    if (trace !== this.#traces) return;
    void this.#chooseHalfLife();
    await this.#sample();
  }

  /** Looks into the half-life once the log has grown enough to change the answer. */
  async #chooseHalfLife(): Promise<void> {
    const items = this.#workspace.of('items').live.size;
    if (items < this.#studiedItems * growthBeforeStudy || items === 0) return;
    this.#studiedItems = items;
    const result = await this.#study.run('halfLife', await this.#studyPatch());
    if (result.kind !== 'done') return;
    const before = this.#halfLife?.halfLifeDays;
    this.#halfLife = result.output;
    if (result.output.kind === 'best' && result.output.halfLifeDays !== before)
      await this.retrace();
  }

  async #sample(): Promise<void> {
    this.#sampling = 0;
    const result = await this.#client.run('sample', null, {
      onprogress: (done, total) => (this.#sampling = done / total),
    });
    if (result.kind === 'superseded' || result.kind === 'stopped') return;
    this.#sampling = undefined;
    // A failure leaves the quick pass standing: the screen says which one it shows.
    if (result.kind === 'done' && result.output) {
      this.#ranking = { kind: 'ready', value: result.output };
    }
  }

  /** The misses that count towards one concept, with their shares, largest first. */
  async evidenceFor(conceptId: ConceptId): Promise<Load<Evidence>> {
    return loadOf(await this.#client.run('evidence', { conceptId }));
  }

  /** Why a concept stands where it stands; undefined where it is not among the roots. */
  async explanationFor(conceptId: ConceptId): Promise<Load<RootExplanation | undefined>> {
    return loadOf(await this.#client.run('explain', { conceptId }));
  }

  /** What the engine foretold in the past and how it came out, and what it expects now. */
  async foretold(): Promise<Load<Foretold>> {
    return loadOf(await this.#study.run('foretell', await this.#studyPatch()));
  }

  /**
   * What lies under the misses of the blocks sat at an instant or later, by the quick pass alone.
   * A newer question leaves the older one loading for ever: its asker has moved on.
   */
  async rankingSince(from: number): Promise<Load<Ranking>> {
    return this.#periodOf({ from });
  }

  /**
   * The ranking as it stood at an instant: what was sat and read until then, aged as it was then.
   * As `rankingSince`, by the quick pass alone.
   */
  async rankingUntil(until: number): Promise<Load<Ranking>> {
    return this.#periodOf({ until });
  }

  async #periodOf(period: Omit<TraceJobs['period']['input'], 'patch'>): Promise<Load<Ranking>> {
    const patch = await this.#studyPatch();
    return loadOf(await this.#study.run('period', { patch, ...period }));
  }

  #studyPatch(): Promise<TracePatch> {
    return this.#studyLog.patch(this.#halfLife?.halfLifeDays);
  }
}
