// A small server for the built app: files of one folder, to this machine only.
//
// The log lives in the browser and belongs to the address, so the server keeps to one address:
// `localhost` is sent on to 127.0.0.1, and any other name is refused (a page elsewhere could
// otherwise point its own name at this machine and read what is here: DNS rebinding).
import { createServer } from 'node:http';
import { createReadStream } from 'node:fs';
import { realpath, stat } from 'node:fs/promises';
import path from 'node:path';
import { responseHeaders } from './response-headers.mjs';

export const LOOPBACK = '127.0.0.1';

/** Answers which copy and version is being served; see launch.mjs. */
export const ALIVE_PATH = '/hypocentre-alive';

/**
 * @typedef {{ app: 'hypocentre', version: string, copy: string }} Identity
 * @typedef {object} RunningServer
 * @property {string} url address of the first page, ending in a slash
 * @property {number} port
 * @property {() => Promise<void>} close ends it, open connections too
 */

/**
 * Serves a folder on 127.0.0.1 and returns once it is listening.
 *
 * @param {string} folder the built app; must exist
 * @param {{ port?: number, identity?: Identity }} [options] port 0, the default, takes a free one
 * @returns {Promise<RunningServer>}
 * @throws the system's error, with code EADDRINUSE when the port is taken
 *
 * @example
 * const server = await serveFolder('dist'); // server.url is like 'http://127.0.0.1:41234/'
 */
export async function serveFolder(folder, options = {}) {
  const root = await realpath(folder);
  const server = createServer((request, response) => {
    answer(root, options.identity, request, response).catch((error) => {
      if (!response.headersSent) sendText(response, 500, 'The server failed to read this file.');
      else response.destroy();
      console.error(error);
    });
  });
  await new Promise((resolve, reject) => {
    server.once('error', reject);
    server.listen({ port: options.port ?? 0, host: LOOPBACK, exclusive: true }, () => {
      server.off('error', reject);
      resolve(undefined);
    });
  });
  const address = server.address();
  const port = typeof address === 'object' && address ? address.port : 0;
  return {
    url: `http://${LOOPBACK}:${String(port)}/`,
    port,
    close: () =>
      new Promise((resolve) => {
        server.close(() => resolve());
        server.closeAllConnections();
      }),
  };
}

/**
 * @param {string} root
 * @param {Identity | undefined} identity
 * @param {import('node:http').IncomingMessage} request
 * @param {import('node:http').ServerResponse} response
 */
async function answer(root, identity, request, response) {
  const host = request.headers.host ?? '';
  const port = String(request.socket.localPort);
  if (host === `localhost:${port}` && request.url?.startsWith('/')) {
    response.setHeader('Location', `http://${LOOPBACK}:${port}${request.url}`);
    return sendText(response, 307, 'The app is at 127.0.0.1.');
  }
  if (host !== `${LOOPBACK}:${port}`) {
    return sendText(response, 403, 'This server answers to 127.0.0.1 only.');
  }
  if (request.method !== 'GET' && request.method !== 'HEAD') {
    response.setHeader('Allow', 'GET, HEAD');
    return sendText(response, 405, 'Only reading is possible here.');
  }
  const place = parseRequestPath(request.url ?? '');
  if (place === undefined) return sendText(response, 400, 'This is not an address of the app.');
  if (place === ALIVE_PATH && identity) return sendJson(response, identity);

  const found = await findFile(root, place);
  if (!found) return sendText(response, 404, 'There is nothing at this address.');
  await sendFile(request, response, place, found);
}

/**
 * Returns the path a request asks for, decoded, or undefined when it is none that the app has:
 * a step upwards, a hidden file, a backslash, a colon, a null, or broken percent signs.
 *
 * @param {string} target as in the request line, with or without a query
 * @returns {string | undefined} starts with a slash; '/' becomes '/index.html'
 *
 * @example
 * parseRequestPath('/assets/a%20b.js?x=1'); // '/assets/a b.js'
 * parseRequestPath('/%2e%2e/secret'); // undefined
 */
export function parseRequestPath(target) {
  if (!target.startsWith('/')) return undefined;
  let decoded;
  try {
    decoded = decodeURIComponent(target.split(/[?#]/, 1)[0] ?? '');
  } catch (error) {
    if (error instanceof URIError) return undefined;
    throw error;
  }
  if (/[\\:\0]/.test(decoded)) return undefined;
  const steps = decoded.slice(1).split('/');
  if (steps.some((step) => step.startsWith('.'))) return undefined;
  return decoded.endsWith('/') ? `${decoded}index.html` : decoded;
}

/**
 * Returns the file and what the system says of it, or undefined when there is no such file or a
 * link leads out of the folder.
 *
 * @param {string} root with all links resolved
 * @param {string} place from parseRequestPath
 */
async function findFile(root, place) {
  try {
    const file = await realpath(path.join(root, place));
    if (!file.startsWith(root + path.sep)) return undefined;
    const facts = await stat(file);
    return facts.isFile() ? { file, size: facts.size, changedMs: facts.mtimeMs } : undefined;
  } catch (error) {
    const code = /** @type {NodeJS.ErrnoException} */ (error).code;
    if (code === 'ENOENT' || code === 'ENOTDIR' || code === 'ENAMETOOLONG') return undefined;
    throw error;
  }
}

/**
 * @param {import('node:http').IncomingMessage} request
 * @param {import('node:http').ServerResponse} response
 * @param {string} place
 * @param {{ file: string, size: number, changedMs: number }} found
 */
async function sendFile(request, response, place, found) {
  const tag = `"${found.size.toString(36)}-${Math.round(found.changedMs).toString(36)}"`;
  const headers = { ...responseHeaders(place), ETag: tag };
  if (request.headers['if-none-match'] === tag) {
    response.writeHead(304, headers).end();
    return;
  }
  response.writeHead(200, { ...headers, 'Content-Length': found.size });
  if (request.method === 'HEAD') {
    response.end();
    return;
  }
  await new Promise((resolve, reject) => {
    createReadStream(found.file).once('error', reject).pipe(response);
    response.once('close', () => resolve(undefined));
  });
}

/**
 * @param {import('node:http').ServerResponse} response
 * @param {number} status
 * @param {string} text
 */
function sendText(response, status, text) {
  response.writeHead(status, responseHeaders('answer.txt')).end(`${text}\n`);
}

/**
 * @param {import('node:http').ServerResponse} response
 * @param {unknown} value
 */
function sendJson(response, value) {
  response.writeHead(200, responseHeaders('answer.json')).end(JSON.stringify(value));
}
