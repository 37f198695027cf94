import { describe, expect, it } from 'vitest';
import { browserCommand } from '../../../src/serve/open-browser.mjs';

const url = 'http://127.0.0.1:4820/';

describe('opening the browser', () => {
  it('uses what each system has for it', () => {
    expect(browserCommand(url, 'darwin', {})).toEqual({ command: 'open', args: [url] });
    expect(browserCommand(url, 'win32', {})?.args).toEqual(['/c', 'start', '""', url]);
    expect(browserCommand(url, 'linux', { DISPLAY: ':0' })?.command).toBe('xdg-open');
    expect(browserCommand(url, 'linux', { WAYLAND_DISPLAY: 'wayland-0' })?.args).toEqual([url]);
  });

  it('does nothing where nobody is looking', () => {
    expect(browserCommand(url, 'linux', {})).toBeUndefined();
    expect(browserCommand(url, 'darwin', { CI: 'true' })).toBeUndefined();
    expect(browserCommand(url, 'win32', { HYPOCENTRE_NO_BROWSER: '1' })).toBeUndefined();
  });

  it('takes a variable set to nothing or to false for not set', () => {
    expect(browserCommand(url, 'darwin', { CI: 'false', HYPOCENTRE_NO_BROWSER: '' })).toBeDefined();
  });
});
