import { serveJobs, type WorkerScope } from './serve-jobs';
import { traceJobs } from './trace-jobs';

serveJobs(self as WorkerScope, traceJobs());
