/**
 * Messages between the page and its workers.
 *
 * Each request has a `jobId`; each reply repeats it. A worker answers a request
 * with any number of `progress` replies and then exactly one `done` or `failed`.
 */

/** What a worker can do: for each kind of job, its input and its result. */
export type Jobs = Record<string, { input: unknown; output: unknown }>;

export interface JobRequest<J extends Jobs, K extends keyof J & string = keyof J & string> {
  readonly jobId: number;
  readonly kind: K;
  readonly input: J[K]['input'];
}

/** Asks the worker to leave a job; a job that has ended already is left alone. */
export interface StopRequest {
  readonly jobId: number;
  readonly kind: 'stop';
}

export type JobReply =
  | { readonly jobId: number; readonly kind: 'done'; readonly output: unknown }
  | { readonly jobId: number; readonly kind: 'failed'; readonly message: string }
  | {
      readonly jobId: number;
      readonly kind: 'progress';
      readonly done: number;
      readonly total: number;
    };

/** How a job ended, seen from the page. */
export type JobResult<T> =
  | { readonly kind: 'done'; readonly output: T }
  | { readonly kind: 'failed'; readonly message: string }
  /** A newer request of the same kind has taken its place. */
  | { readonly kind: 'superseded' }
  /** The caller's signal stopped it. */
  | { readonly kind: 'stopped' };

/** The half of a Worker that the client needs; tests bring their own. */
export interface WorkerLike {
  postMessage(message: unknown, transfer?: Transferable[]): void;
  terminate(): void;
  onmessage: ((event: MessageEvent<JobReply>) => void) | null;
  onerror: ((event: ErrorEvent) => void) | null;
  onmessageerror: ((event: MessageEvent) => void) | null;
}
