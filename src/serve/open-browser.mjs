// Opens the page in the person's browser, where there is a person and a browser.
import { spawn } from 'node:child_process';

/**
 * Returns the command that opens an address, or undefined where nobody is looking: in continuous
 * integration, where it was asked not to, or where there is no display.
 *
 * @param {string} url
 * @param {string} platform as in `process.platform`
 * @param {Record<string, string | undefined>} env
 * @returns {{ command: string, args: string[] } | undefined}
 */
export function browserCommand(url, platform, env) {
  if (isSet(env['CI']) || isSet(env['HYPOCENTRE_NO_BROWSER'])) return undefined;
  if (platform === 'darwin') return { command: 'open', args: [url] };
  // The empty argument is the window title, which `start` would otherwise take the address for.
  if (platform === 'win32') return { command: 'cmd', args: ['/c', 'start', '""', url] };
  if (!isSet(env['DISPLAY']) && !isSet(env['WAYLAND_DISPLAY'])) return undefined;
  return { command: 'xdg-open', args: [url] };
}

/** @param {string | undefined} value */
function isSet(value) {
  return value !== undefined && value !== '' && value !== '0' && value !== 'false';
}

/**
 * Opens an address in the browser, or does nothing where there is none.
 *
 * @param {string} url
 */
export function openBrowser(url) {
  const found = browserCommand(url, process.platform, process.env);
  if (!found) return;
  const child = spawn(found.command, found.args, {
    detached: true,
    stdio: 'ignore',
    windowsVerbatimArguments: true,
  });
  // No such command: the address is on the terminal all the same.
  child.once('error', () => {});
  child.unref();
}
