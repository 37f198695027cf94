/** The page's end of a worker: typed promises, none of which can hang. */
import type { JobReply, JobResult, Jobs, WorkerLike } from './protocol';

export interface JobOptions {
  readonly onprogress?: (done: number, total: number) => void;
  readonly signal?: AbortSignal;
  readonly transfer?: Transferable[];
  /** False for jobs that may run side by side; the default lets a newer one settle the older. */
  readonly supersedes?: boolean;
}

interface PendingJob {
  readonly kind: string;
  readonly settle: (result: JobResult<unknown>) => void;
  readonly onprogress: ((done: number, total: number) => void) | undefined;
}

/**
 * Sends jobs to one worker and settles each promise exactly once.
 *
 * A newer job of the same kind settles the older as `superseded`. A worker that
 * dies fails all its jobs, and the next job starts a fresh one; `onrestart`
 * tells the owner that whatever the worker remembered is gone.
 */
export class WorkerClient<J extends Jobs> {
  readonly #start: () => WorkerLike;
  readonly #onrestart: () => void;
  readonly #pending = new Map<number, PendingJob>();
  #worker: WorkerLike | undefined;
  #nextJobId = 1;

  constructor(start: () => WorkerLike, onrestart: () => void = () => undefined) {
    this.#start = start;
    this.#onrestart = onrestart;
  }

  run<K extends keyof J & string>(
    kind: K,
    input: J[K]['input'],
    options: JobOptions = {},
  ): Promise<JobResult<J[K]['output']>> {
    if (options.signal?.aborted) return Promise.resolve({ kind: 'stopped' });
    const worker = this.#worker ?? this.#startWorker();
    const jobId = this.#nextJobId++;
    if (options.supersedes !== false) this.#supersede(kind, worker);

    return new Promise((resolve) => {
      const settle = (result: JobResult<unknown>) => {
        this.#pending.delete(jobId);
        options.signal?.removeEventListener('abort', stop);
        resolve(result);
      };
      const stop = () => {
        worker.postMessage({ jobId, kind: 'stop' });
        settle({ kind: 'stopped' });
      };
      options.signal?.addEventListener('abort', stop);
      this.#pending.set(jobId, { kind, settle, onprogress: options.onprogress });
      try {
        worker.postMessage({ jobId, kind, input }, options.transfer);
      } catch (error) {
        // Input that cannot be cloned: the caller's mistake, reported like any failure.
        settle({ kind: 'failed', message: error instanceof Error ? error.message : String(error) });
      }
    });
  }

  /** Starts the worker ahead of its first job, to be ready when that comes. */
  warmUp(): void {
    if (!this.#worker) this.#startWorker();
  }

  close(): void {
    this.#worker?.terminate();
    this.#worker = undefined;
    this.#failAll('The background work was closed.');
  }

  #supersede(kind: string, worker: WorkerLike): void {
    for (const [jobId, job] of this.#pending) {
      if (job.kind !== kind) continue;
      worker.postMessage({ jobId, kind: 'stop' });
      job.settle({ kind: 'superseded' });
    }
  }

  #startWorker(): WorkerLike {
    const worker = this.#start();
    worker.onmessage = (event) => this.#receive(event.data);
    worker.onerror = (event) =>
      this.#lose(event.message || 'the browser could not start it, or ended it');
    worker.onmessageerror = () => this.#lose('a message could not be read');
    this.#worker = worker;
    return worker;
  }

  #receive(reply: JobReply): void {
    const job = this.#pending.get(reply.jobId);
    if (!job) return; // superseded or stopped: an old answer is never shown
    if (reply.kind === 'progress') job.onprogress?.(reply.done, reply.total);
    else if (reply.kind === 'done') job.settle({ kind: 'done', output: reply.output });
    else job.settle({ kind: 'failed', message: reply.message });
  }

  #lose(why: string): void {
    this.#worker?.terminate();
    this.#worker = undefined;
    this.#failAll(`The background work broke off: ${why}`);
    this.#onrestart();
  }

  #failAll(message: string): void {
    for (const job of this.#pending.values()) job.settle({ kind: 'failed', message });
  }
}
