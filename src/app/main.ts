/** Composition root: opens the database, starts the workers, builds the state, mounts the frame. */
import '@fontsource-variable/source-serif-4/wght.css';
import '@fontsource-variable/source-serif-4/wght-italic.css';
import './tokens.css';
import './base.css';
import { mount, unmount } from 'svelte';
import { idMaker } from '../model/ids';
import { recordKinds } from '../model/records';
import type { Instant } from '../model/time';
import { Beginnings } from '../state/beginnings.svelte';
import type { AppState, Keeping } from '../state/context';
import { DeviceValues } from '../state/device-values';
import type { Finder } from '../state/find.svelte';
import type { Importer } from '../state/importer.svelte';
import { Notices } from '../state/notices.svelte';
import { Roots } from '../state/roots.svelte';
import { Updates } from '../state/updates.svelte';
import { Workspace } from '../state/workspace.svelte';
import {
  defaultDatabaseName,
  deviceOf,
  openChangesChannel,
  openStore,
  Spare,
  type OpenResult,
} from '../storage';
import { WorkerClient } from '../workers/client';
import type { ImportJobs } from '../workers/import-jobs';
import type { TraceJobs } from '../workers/trace-jobs';
import App from './App.svelte';
import { keepTracing } from './keep-tracing.svelte';
import { restAt } from './rest';
import { seedFiles } from './seed-files';
import TroubleScreen from './TroubleScreen.svelte';
import { texts } from './texts';

/** Before the careful passes of tracing begin: nobody looks up from the keyboard for longer in mid-work. */
const restMs = 4_000;

const target = document.getElementById('app');
if (!target) throw new Error('main: got no element #app; need it in index.html');

let shown: Record<string, unknown> | undefined;

/** Opening takes a fraction of a second; some browsers at times never answer. */
const slowOpenMs = 8_000;

function show(screen: () => Record<string, unknown>): void {
  if (shown) void unmount(shown);
  shown = screen();
}

function showTrouble(title: string, message: string, wayOn: string): void {
  show(() =>
    mount(TroubleScreen, { target: target as HTMLElement, props: { title, message, wayOn } }),
  );
}

async function start(): Promise<void> {
  // Open before anything is read, so that no other tab's save is missed in between.
  const channel = openChangesChannel(new BroadcastChannel(defaultDatabaseName));
  const makeId = idMaker(() => crypto.randomUUID());
  const notices = new Notices();

  const slow = setTimeout(
    () =>
      showTrouble(
        texts.main.stillWaitingForTheStored,
        texts.main.theBrowserHasNotOpened,
        texts.main.thisPageGoes,
      ),
    slowOpenMs,
  );
  const opened = await openStore({
    name: defaultDatabaseName,
    channel,
    spare: new Spare(Date.now(), crypto.randomUUID().slice(0, 8)),
    onlost: (lost) => notices.failed(`${lost.message} ${lost.wayOn}`, reloadAction),
  }).finally(() => clearTimeout(slow));
  await startWith(opened);

  async function startWith(result: OpenResult): Promise<void> {
    if (result.kind === 'blocked') {
      showTrouble(texts.main.waitingForAnotherTab, result.message, result.wayOn);
      await startWith(await result.whenFree);
      return;
    }
    if (result.kind === 'newer-version') {
      showTrouble(texts.main.aNewerVersionHasBeen, result.message, result.wayOn);
      return;
    }
    if (result.kind === 'unavailable') {
      showTrouble(texts.main.theLogCannotBeOpened, result.failure.message, result.failure.wayOn);
      return;
    }
    const { store } = result;
    const device = await deviceOf(store, makeId);
    if (device.kind === 'failed') {
      showTrouble(texts.main.theLogCannotBeOpened, device.failure.message, device.failure.wayOn);
      return;
    }

    const workspace = new Workspace({
      store,
      channel,
      device: device.device,
      makeId,
      now: () => Date.now() as Instant,
      minutesEast: (at) => -new Date(at).getTimezoneOffset(),
    });
    let trouble = await workspace.load();
    const nothing = recordKinds.every((kind) => workspace.of(kind).live.size === 0);
    if (trouble === undefined && nothing) {
      const { putBackSpare } = await import('./put-back');
      const result = await putBackSpare(store);
      if (result.kind === 'put-back') {
        trouble = await workspace.load();
        notices.failed(texts.main.theBrowserHadThrown(result.count), {
          label: texts.main.goToSafekeeping,
          run: () => (location.hash = '#/safekeeping'),
        });
      } else if (result.kind === 'failed') {
        trouble = result.message;
      }
    }
    if (trouble !== undefined) {
      showTrouble(texts.main.theLogCannotBeRead, trouble, texts.main.reloadThePageToTry);
      return;
    }

    const startTracer = () =>
      new Worker(new URL('../workers/trace.worker.ts', import.meta.url), { type: 'module' });
    const tracing = new WorkerClient<TraceJobs>(startTracer, () => roots.forgetSent());
    const studying = new WorkerClient<TraceJobs>(startTracer, () => roots.forgetSent());
    const importing = new WorkerClient<ImportJobs>(
      () => new Worker(new URL('../workers/import.worker.ts', import.meta.url), { type: 'module' }),
    );
    const roots = new Roots(workspace, tracing, studying, restAt(window, restMs));
    let importer: Promise<Importer> | undefined;
    let keeping: Promise<Keeping> | undefined;
    let finding: Promise<Finder> | undefined;
    const state: AppState = {
      workspace,
      roots,
      notices,
      beginnings: new Beginnings(workspace, store, seedFiles),
      importer: () =>
        (importer ??= import('../state/importer.svelte').then(
          (m) => new m.Importer(workspace, importing),
        )),
      keeping: () =>
        (keeping ??= import('./keeping').then((m) => m.startKeeping(workspace, store))),
      deviceValues: new DeviceValues(store),
      updates: new Updates(workspace),
      finder: () =>
        (finding ??= import('./finding.svelte').then((m) => m.startFinding(workspace, store))),
    };
    keepTracing(workspace, roots);
    reportStrayErrors(notices);
    show(() => mount(App, { target: target as HTMLElement, props: { state } }));
    void import('./after-start').then((m) => m.afterStart(state));
  }
}

const reloadAction = { label: texts.main.reload, run: () => location.reload() };

/** The one catch-all: what nobody expected is said, with a way on, instead of passing in silence. */
function reportStrayErrors(notices: Notices): void {
  const report = (what: unknown) => {
    const text = what instanceof Error ? what.message : String(what);
    notices.failed(texts.main.somethingWentWrong(text), reloadAction);
  };
  addEventListener('error', (event) => report(event.error ?? event.message));
  addEventListener('unhandledrejection', (event) => report(event.reason));
}

start().catch((error: unknown) => {
  const text = error instanceof Error ? error.message : String(error);
  showTrouble(texts.main.hypocentreCouldNotStart, text, texts.main.reloadThePage);
});
