import { mapFileJobs } from './map-file-jobs';
import { serveJobs, type WorkerScope } from './serve-jobs';

serveJobs(self as WorkerScope, mapFileJobs());
