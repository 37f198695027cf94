/** The worker's end: runs the job that a message names and answers it. */
import type { JobReply, Jobs } from './protocol';

export interface JobContext {
  progress(done: number, total: number): void;
  /** True once the page has lost interest; long jobs look now and then. */
  stopped(): boolean;
}

export type JobHandlers<J extends Jobs> = {
  [K in keyof J & string]: (
    input: J[K]['input'],
    context: JobContext,
  ) => J[K]['output'] | Promise<J[K]['output']>;
};

/** The half of a worker's global scope that is used here. */
export interface WorkerScope {
  postMessage(reply: JobReply): void;
  onmessage: ((event: MessageEvent) => void) | null;
}

/** Answers every message in `scope` with the handler of its kind. */
export function serveJobs<J extends Jobs>(scope: WorkerScope, handlers: JobHandlers<J>): void {
  const stopped = new Set<number>();
  const running = new Set<number>();

  async function answer(jobId: number, kind: keyof J & string, input: unknown): Promise<void> {
    running.add(jobId);
    const context: JobContext = {
      progress: (done, total) => scope.postMessage({ jobId, kind: 'progress', done, total }),
      stopped: () => stopped.has(jobId),
    };
    try {
      const output = await handlers[kind](input, context);
      if (!stopped.has(jobId)) scope.postMessage({ jobId, kind: 'done', output });
    } catch (error) {
      // Whatever went wrong, the page must hear of it: a promise there waits.
      const message = error instanceof Error ? error.message : String(error);
      scope.postMessage({ jobId, kind: 'failed', message });
    } finally {
      running.delete(jobId);
      stopped.delete(jobId);
    }
  }

  scope.onmessage = (event: MessageEvent<{ jobId: number; kind: string; input?: unknown }>) => {
    const { jobId, kind, input } = event.data;
    if (kind !== 'stop') void answer(jobId, kind, input);
    else if (running.has(jobId)) stopped.add(jobId);
  };
}
