/** A worker in the same thread, for tests of what stands on either side of it. */
import type { JobReply, Jobs, WorkerLike } from '../../../src/workers/protocol';
import {
  serveJobs,
  type JobContext,
  type JobHandlers,
  type WorkerScope,
} from '../../../src/workers/serve-jobs';

export interface LinkedWorker extends WorkerLike {
  /** As a browser reports a worker that threw outside any job. */
  die(message: string): void;
}

/** Messages cross by structured clone, in order and later; what is transferred is gone here. */
export function linkedWorker<J extends Jobs>(handlers: JobHandlers<J>): LinkedWorker {
  const scope: WorkerScope = {
    onmessage: null,
    postMessage: (reply) => {
      const data = structuredClone(reply);
      queueMicrotask(() => worker.onmessage?.({ data } as MessageEvent<JobReply>));
    },
  };
  const worker: LinkedWorker = {
    onmessage: null,
    onerror: null,
    onmessageerror: null,
    terminate: () => {
      scope.onmessage = null;
      worker.onmessage = null;
    },
    postMessage: (message, transfer = []) => {
      const data: unknown = structuredClone(message, { transfer });
      queueMicrotask(() => scope.onmessage?.({ data } as MessageEvent));
    },
    die: (message) => worker.onerror?.({ message } as ErrorEvent),
  };
  serveJobs(scope, handlers);
  return worker;
}

export interface FakeContext extends JobContext {
  /** Every report of progress, as [done, total]. */
  readonly reports: (readonly [number, number])[];
}

/** The context of one job; `stopAfter` reports of progress nobody waits for it any more. */
export function fakeContext(stopAfter = Infinity): FakeContext {
  const reports: (readonly [number, number])[] = [];
  return {
    reports,
    progress: (done, total) => reports.push([done, total]),
    stopped: () => reports.length >= stopAfter,
  };
}
