import { importJobs } from './import-jobs';
import { serveJobs, type WorkerScope } from './serve-jobs';

serveJobs(self as WorkerScope, importJobs());
