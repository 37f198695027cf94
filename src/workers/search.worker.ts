import { searchJobs } from './search-jobs';
import { serveJobs, type WorkerScope } from './serve-jobs';

serveJobs(self as WorkerScope, searchJobs());
