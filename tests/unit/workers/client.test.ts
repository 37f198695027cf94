import { describe, expect, it, vi } from 'vitest';
import { WorkerClient } from '../../../src/workers/client';
import type { JobReply, WorkerLike } from '../../../src/workers/protocol';
import { serveJobs, type JobContext, type WorkerScope } from '../../../src/workers/serve-jobs';

type SumJobs = {
  sum: { input: readonly number[]; output: number };
  wait: { input: null; output: string };
};

/** A worker in the same thread: messages cross by structured clone, in order, later. */
function linkedWorker(handlers: {
  sum?: (input: readonly number[], context: JobContext) => number;
  wait?: (input: null, context: JobContext) => Promise<string>;
}): WorkerLike & { die(message: string): void } {
  const scope: WorkerScope = {
    onmessage: null,
    postMessage: (reply) =>
      queueMicrotask(() =>
        worker.onmessage?.({ data: structuredClone(reply) } as MessageEvent<JobReply>),
      ),
  };
  const worker: WorkerLike & { die(message: string): void } = {
    onmessage: null,
    onerror: null,
    onmessageerror: null,
    terminate: vi.fn(),
    postMessage: (message) => {
      const data: unknown = structuredClone(message);
      queueMicrotask(() => scope.onmessage?.({ data } as MessageEvent));
    },
    die: (message) => worker.onerror?.({ message } as ErrorEvent),
  };
  serveJobs<SumJobs>(scope, {
    sum: handlers.sum ?? ((numbers) => numbers.reduce((total, number) => total + number, 0)),
    wait: handlers.wait ?? (() => new Promise(() => undefined)),
  });
  return worker;
}

describe('WorkerClient', () => {
  it('settles a job with what the worker answered', async () => {
    const client = new WorkerClient<SumJobs>(() => linkedWorker({}));
    expect(await client.run('sum', [2, 3, 5])).toEqual({ kind: 'done', output: 10 });
  });

  it('settles the older of two jobs of one kind as superseded and never shows its answer', async () => {
    const client = new WorkerClient<SumJobs>(() => linkedWorker({}));
    const older = client.run('sum', [1]);
    const newer = client.run('sum', [7]);
    expect(await older).toEqual({ kind: 'superseded' });
    expect(await newer).toEqual({ kind: 'done', output: 7 });
  });

  it('lets jobs of different kinds run side by side', async () => {
    let release: (text: string) => void = () => undefined;
    const client = new WorkerClient<SumJobs>(() =>
      linkedWorker({ wait: () => new Promise((resolve) => (release = resolve)) }),
    );
    const waiting = client.run('wait', null);
    expect(await client.run('sum', [4, 4])).toEqual({ kind: 'done', output: 8 });
    release('late');
    expect(await waiting).toEqual({ kind: 'done', output: 'late' });
  });

  it('says why a job failed in the worker', async () => {
    const client = new WorkerClient<SumJobs>(() =>
      linkedWorker({
        sum: () => {
          throw new RangeError('sum: got NaN; need numbers');
        },
      }),
    );
    expect(await client.run('sum', [])).toEqual({
      kind: 'failed',
      message: 'sum: got NaN; need numbers',
    });
  });

  it('passes progress on and stops on the signal, telling the worker', async () => {
    const stop = new AbortController();
    const seen: number[] = [];
    let context: JobContext | undefined;
    const client = new WorkerClient<SumJobs>(() =>
      linkedWorker({
        wait: (_input, given) => {
          context = given;
          given.progress(3, 10);
          return new Promise(() => undefined);
        },
      }),
    );
    const job = client.run('wait', null, {
      signal: stop.signal,
      onprogress: (done) => {
        seen.push(done);
        stop.abort();
      },
    });
    expect(await job).toEqual({ kind: 'stopped' });
    await Promise.resolve();
    expect(seen).toEqual([3]);
    expect(context?.stopped()).toBe(true);
  });

  it('does not start a job whose signal has fired already', async () => {
    const start = vi.fn(() => linkedWorker({}));
    const client = new WorkerClient<SumJobs>(start);
    expect(await client.run('sum', [1], { signal: AbortSignal.abort() })).toEqual({
      kind: 'stopped',
    });
    expect(start).not.toHaveBeenCalled();
  });

  it('fails every job of a worker that dies, and starts a fresh one for the next', async () => {
    const workers: (WorkerLike & { die(message: string): void })[] = [];
    const restarted = vi.fn();
    const client = new WorkerClient<SumJobs>(() => {
      const worker = linkedWorker({});
      workers.push(worker);
      return worker;
    }, restarted);
    const lost = client.run('wait', null);
    workers[0]?.die('out of memory');
    expect(await lost).toEqual({
      kind: 'failed',
      message: 'The background work broke off: out of memory',
    });
    expect(restarted).toHaveBeenCalledOnce();
    expect(await client.run('sum', [1, 1])).toEqual({ kind: 'done', output: 2 });
    expect(workers).toHaveLength(2);
  });

  it('fails a job whose input cannot be sent, instead of hanging', async () => {
    const client = new WorkerClient<SumJobs>(() => linkedWorker({}));
    const input = [() => 1] as unknown as number[];
    expect((await client.run('sum', input)).kind).toBe('failed');
  });
});
