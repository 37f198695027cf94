/** The ranking that screens show, kept in step with the log by the trace worker. */
import type { Foretold, HalfLifeChoice, RootExplanation } from '../engine';
import type { ConceptId } from '../model/ids';
import type { Block, Item } from '../model/log';
import type { WorkerClient } from '../workers/client';
import type { Evidence, Ranking, TraceItem, TraceJobs } from '../workers/trace-jobs';
import { loading, type Load } from './load';
import { readingsRead, traceConcepts, traceItem, unitemisedBlocks } from './trace-input';
import type { Workspace } from './workspace.svelte';

export type { HalfLifeChoice, RootExplanation } from '../engine';
export type { Evidence, RankedRoot, Ranking } from '../workers/trace-jobs';

interface SentItem {
  readonly item: Item;
  readonly block: Block;
  readonly traced: TraceItem;
}

/** The log must grow by this factor before the half-life is looked into again. */
const growthBeforeStudy = 1.1;

export class Roots {
  readonly #workspace: Workspace;
  readonly #client: WorkerClient<TraceJobs>;
  /** A second worker: choosing the half-life takes seconds, and tracing must not wait for it. */
  readonly #study: WorkerClient<TraceJobs>;
  /** Items the worker holds, by id, with the records they were made of. */
  #sent = new Map<string, SentItem>();
  /** What else the last patch said, and when. */
  #sentRest = { text: '', at: -Infinity };
  /** The map the worker holds; undefined when it holds nothing. */
  #sentConcepts: unknown;
  #ranking = $state.raw<Load<Ranking>>(loading);
  /** Whether what is shown lags behind the log. */
  #behind = $state(true);
  #halfLife = $state.raw<HalfLifeChoice>();
  /** Items there were when the half-life was last chosen. */
  #studiedItems = 0;
  /** How far the careful pass is, from 0 to 1; undefined when none is under way. */
  #sampling = $state<number>();

  constructor(
    workspace: Workspace,
    client: WorkerClient<TraceJobs>,
    study: WorkerClient<TraceJobs>,
  ) {
    this.#workspace = workspace;
    this.#client = client;
    this.#study = study;
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

  /** The worker lost its memory: everything is sent again next time. */
  forgetSent(): void {
    this.#sent = new Map();
    this.#sentConcepts = undefined;
  }

  /**
   * Traces the log as it is now: the quick pass at once, then the careful one.
   * An older answer never replaces a newer one. A change that tracing does not look at, such as a
   * letter of a missing piece, asks for nothing.
   */
  async retrace(): Promise<void> {
    const patch = this.#patch();
    if (!this.#tellsAnything(patch)) return;
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
    void this.#chooseHalfLife();
    await this.#sample();
  }

  /** Looks into the half-life once the log has grown enough to change the answer. */
  async #chooseHalfLife(): Promise<void> {
    const items = this.#workspace.of('items').live.size;
    if (items < this.#studiedItems * growthBeforeStudy || items === 0) return;
    this.#studiedItems = items;
    const result = await this.#study.run('halfLife', this.#wholeLog());
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
    const result = await this.#client.run('evidence', { conceptId });
    if (result.kind === 'done') return { kind: 'ready', value: result.output };
    if (result.kind === 'failed') return { kind: 'failed', message: result.message };
    return loading;
  }

  /** Why a concept stands where it stands; undefined where it is not among the roots. */
  async explanationFor(conceptId: ConceptId): Promise<Load<RootExplanation | undefined>> {
    const result = await this.#client.run('explain', { conceptId });
    if (result.kind === 'done') return { kind: 'ready', value: result.output };
    if (result.kind === 'failed') return { kind: 'failed', message: result.message };
    return loading;
  }

  /** What the engine foretold in the past and how it came out, and what it expects now. */
  async foretold(): Promise<Load<Foretold>> {
    const result = await this.#study.run('foretell', this.#wholeLog());
    if (result.kind === 'done') return { kind: 'ready', value: result.output };
    if (result.kind === 'failed') return { kind: 'failed', message: result.message };
    return loading;
  }

  /**
   * What lies under the misses of the blocks sat at an instant or later, by the quick pass alone.
   * A newer question leaves the older one loading for ever: its asker has moved on.
   */
  async rankingSince(from: number): Promise<Load<Ranking>> {
    const whole = this.#wholeLog();
    const result = await this.#study.run('trace', {
      ...whole,
      items: whole.items.filter(({ at }) => at >= from),
      unitemised: whole.unitemised.filter(({ at }) => at >= from),
    });
    if (result.kind === 'done') return { kind: 'ready', value: result.output };
    if (result.kind === 'failed') return { kind: 'failed', message: result.message };
    return loading;
  }

  /**
   * The ranking as it stood at an instant: what was sat and read until then, aged as it was then.
   * As `rankingSince`, by the quick pass alone.
   */
  async rankingUntil(until: number): Promise<Load<Ranking>> {
    const whole = this.#wholeLog();
    const before = ({ at }: { readonly at: number }) => at < until;
    const result = await this.#study.run('trace', {
      ...whole,
      now: until,
      items: whole.items.filter(before),
      unitemised: whole.unitemised.filter(before),
      readings: whole.readings.filter(before),
    });
    if (result.kind === 'done') return { kind: 'ready', value: result.output };
    if (result.kind === 'failed') return { kind: 'failed', message: result.message };
    return loading;
  }

  /** Everything, for a worker that holds nothing; what the other one holds stays as it is. */
  #wholeLog(): TraceJobs['trace']['input'] {
    const [sent, sentConcepts] = [this.#sent, this.#sentConcepts];
    this.forgetSent();
    const whole = this.#patch();
    this.#sent = sent;
    this.#sentConcepts = sentConcepts;
    return whole;
  }

  /** Whether a patch holds anything that the one before did not; the time alone counts after an hour. */
  #tellsAnything(patch: TraceJobs['trace']['input']): boolean {
    const { now, reset, concepts, items, removedItems, ...rest } = patch;
    const text = JSON.stringify(rest);
    const same =
      !reset &&
      !concepts &&
      items.length + removedItems.length === 0 &&
      text === this.#sentRest.text;
    if (same && now - this.#sentRest.at < 3_600_000) return false;
    this.#sentRest = { text, at: now };
    return true;
  }

  /** Only what differs from what the worker holds; a year's log is sent once. */
  #patch(): TraceJobs['trace']['input'] {
    const concepts = this.#workspace.of('concepts').live;
    const blocks = this.#workspace.of('blocks').live;
    const items = this.#workspace.of('items').live;
    // Which topics count is read through the map, so a change there may change any item.
    const mapChanged = concepts !== this.#sentConcepts;
    const reset = this.#sentConcepts === undefined;

    const changed: TraceItem[] = [];
    const sent = this.#sent;
    let known = 0;
    const itemsByBlock = new Map<string, Item[]>();
    for (const item of items.values()) {
      const block = blocks.get(item.block);
      if (!block) continue;
      const group = itemsByBlock.get(item.block);
      if (group) group.push(item);
      else itemsByBlock.set(item.block, [item]);

      known += 1;
      const before = sent.get(item.id);
      if (before?.item === item && before.block === block && !mapChanged) continue;
      const traced = traceItem(item, block, concepts);
      sent.set(item.id, { item, block, traced });
      if (mapChanged || !before || !sameTraced(before.traced, traced)) changed.push(traced);
    }
    const removedItems: string[] = [];
    if (sent.size > known) {
      for (const id of sent.keys()) {
        const item = items.get(id);
        if (!item || !blocks.has(item.block)) removedItems.push(id);
      }
      for (const id of removedItems) sent.delete(id);
    }

    this.#sentConcepts = concepts;
    return {
      now: this.#workspace.now,
      halfLifeDays: this.#halfLife?.halfLifeDays,
      reset,
      ...(mapChanged && { concepts: traceConcepts(concepts) }),
      items: changed,
      removedItems,
      unitemised: unitemisedBlocks(blocks.values(), itemsByBlock),
      readings: readingsRead(
        this.#workspace.of('readingEvents').live.values(),
        this.#workspace.of('readings').live,
      ),
    };
  }
}

/** Whether an item says the same to the engine. */
function sameTraced(one: TraceItem, other: TraceItem): boolean {
  return JSON.stringify(one) === JSON.stringify(other);
}
