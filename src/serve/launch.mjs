// What `npm start` does once Node is known to be new enough: install, build, serve, open.
import { get } from 'node:http';
import path from 'node:path';
import { buildIsCurrent, ensureBuilt } from './ensure-built.mjs';
import { ensureInstalled } from './ensure-installed.mjs';
import { openBrowser } from './open-browser.mjs';
import { hashOf, PROJECT_ROOT, projectVersion } from './project.mjs';
import { ALIVE_PATH, LOOPBACK, serveFolder } from './static-server.mjs';

/** Always the same port first, because the browser keeps the log by address, port included. */
export const USUAL_PORT = 4820;

/** How many ports to try; more in a row taken by others would be no accident. */
const PORTS_TRIED = 10;

/**
 * @typedef {import('./static-server.mjs').Identity} Identity
 * @typedef {import('./static-server.mjs').RunningServer} RunningServer
 * @typedef {{ kind: 'serving', server: RunningServer }
 *   | { kind: 'already', url: string, identity: Identity }
 *   | { kind: 'none-free' }} Landing
 */

/**
 * Installs and builds what is missing, serves the app and opens it; returns when it is stopped.
 *
 * @param {readonly string[]} args none are understood
 * @returns {Promise<number>} the exit code
 */
export async function startApp(args) {
  const say = (/** @type {string} */ line) => console.log(line);
  if (args.length > 0) {
    console.error(`npm start takes no arguments; got ${args.join(' ')}.`);
    return 1;
  }
  const fault = await makeReady(PROJECT_ROOT, say);
  if (fault !== undefined) {
    console.error(fault);
    return 1;
  }
  const identity = identityOf(PROJECT_ROOT);
  const landing = await findLanding(path.join(PROJECT_ROOT, 'dist'), identity, USUAL_PORT);
  if (landing.kind === 'none-free') {
    const last = USUAL_PORT + PORTS_TRIED - 1;
    console.error(
      `Ports ${String(USUAL_PORT)} to ${String(last)} are all in use by other programs. Close one and try again.`,
    );
    return 1;
  }
  for (const line of landingLines(landing, identity)) say(line);
  const { url } = landing.kind === 'serving' ? landing.server : landing;
  openBrowser(url);
  if (landing.kind === 'serving') {
    await untilStopped();
    await landing.server.close();
    say('\nStopped. What you logged stays in your browser.');
  }
  return 0;
}

/**
 * @param {string} root
 * @param {(line: string) => void} say
 * @returns {Promise<string | undefined>} what went wrong
 */
async function makeReady(root, say) {
  // A current build needs no packages, so it starts on a machine without the network too.
  if (buildIsCurrent(root)) return undefined;
  const installed = await ensureInstalled(root, say);
  if (installed.kind === 'failed') return installed.message;
  const built = await ensureBuilt(root, say);
  return built.kind === 'failed' ? built.message : undefined;
}

/**
 * Returns what a server of this copy answers to who asks.
 *
 * @param {string} root project folder; told only as a hash
 * @returns {Identity}
 */
export function identityOf(root) {
  return {
    app: 'hypocentre',
    version: projectVersion(root),
    copy: hashOf(root).slice(0, 16),
  };
}

/**
 * Serves a folder on the first port that can be had, or finds the app served there already.
 *
 * @param {string} folder
 * @param {Identity} identity
 * @param {number} firstPort
 * @returns {Promise<Landing>}
 * @throws the system's error when a port cannot be had for another reason than being taken
 */
export async function findLanding(folder, identity, firstPort) {
  for (let port = firstPort; port < firstPort + PORTS_TRIED; port++) {
    try {
      return { kind: 'serving', server: await serveFolder(folder, { port, identity }) };
    } catch (error) {
      const code = /** @type {NodeJS.ErrnoException} */ (error).code;
      // EACCES: Windows keeps whole ranges of ports for itself.
      if (code !== 'EADDRINUSE' && code !== 'EACCES') throw error;
      const other = await findIdentityAt(port);
      if (other) {
        return {
          kind: 'already',
          url: `http://${LOOPBACK}:${String(port)}/`,
          identity: other,
        };
      }
    }
  }
  return { kind: 'none-free' };
}

/**
 * Asks whoever holds a port whether it is this app; undefined when it is not or does not answer.
 *
 * @param {number} port
 * @returns {Promise<Identity | undefined>}
 */
export function findIdentityAt(port) {
  return new Promise((resolve) => {
    const request = get(
      { host: LOOPBACK, port, path: ALIVE_PATH, timeout: 1000, agent: false },
      (response) => {
        let text = '';
        response.setEncoding('utf8');
        response.on('data', (/** @type {string} */ chunk) => {
          text += chunk;
          // A stranger may talk without end.
          if (text.length > 1000) request.destroy();
        });
        response.once('end', () => resolve(parseIdentity(text)));
        response.once('close', () => resolve(undefined));
      },
    );
    request.once('timeout', () => request.destroy());
    request.once('error', () => resolve(undefined));
  });
}

/**
 * @param {string} text
 * @returns {Identity | undefined}
 */
function parseIdentity(text) {
  try {
    const { app, version, copy } = JSON.parse(text) ?? {};
    if (app !== 'hypocentre' || typeof version !== 'string' || typeof copy !== 'string') {
      return undefined;
    }
    return { app, version, copy };
  } catch (error) {
    if (error instanceof SyntaxError) return undefined;
    throw error;
  }
}

/**
 * Returns what to tell the person about where the app is.
 *
 * @param {Exclude<Landing, { kind: 'none-free' }>} landing
 * @param {Identity} identity of this copy
 * @returns {string[]}
 */
export function landingLines(landing, identity) {
  const usual = `http://${LOOPBACK}:${String(USUAL_PORT)}/`;
  const url = landing.kind === 'serving' ? landing.server.url : landing.url;
  /** @type {string[]} */
  const lines = [];
  if (landing.kind === 'serving') {
    lines.push(`Hypocentre ${identity.version} is at ${url}`);
  } else if (landing.identity.copy === identity.copy) {
    lines.push(`Hypocentre is running already, at ${url}`);
  } else {
    lines.push(
      `Another copy of Hypocentre (version ${landing.identity.version}) is running already, at ${url}`,
      'Your log belongs to that address, so that copy is opened. To use this one, stop the other first.',
    );
  }
  if (url !== usual) {
    lines.push(
      `The usual address, ${usual}, is taken by another program. The browser keeps a log for each`,
      'address apart: what you logged at the usual address is safe but does not show here. To see it,',
      `close what uses port ${String(USUAL_PORT)} and start again.`,
    );
  }
  if (landing.kind === 'serving') lines.push('Press Ctrl-C to stop.');
  return lines;
}

/** Waits for Ctrl-C, a closed terminal, or a polite kill. */
function untilStopped() {
  return new Promise((resolve) => {
    for (const signal of /** @type {const} */ (['SIGINT', 'SIGTERM', 'SIGHUP'])) {
      process.once(signal, resolve);
    }
  });
}
