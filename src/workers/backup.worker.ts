import { backupJobs, browserDigest } from './backup-jobs';
import { serveJobs, type WorkerScope } from './serve-jobs';

serveJobs(self as WorkerScope, backupJobs(browserDigest));
