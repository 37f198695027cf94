/** The colours of the picture, read from the tokens of the page. */

const tokens = {
  paper: '--paper',
  raised: '--paper-raised',
  stratum1: '--stratum-1',
  stratum2: '--stratum-2',
  stratum3: '--stratum-3',
  ink: '--ink',
  inkSoft: '--ink-soft',
  rule: '--rule',
  ruleStrong: '--rule-strong',
  miss1: '--miss-1',
  miss2: '--miss-2',
  miss3: '--miss-3',
  miss4: '--miss-4',
  missInk: '--miss-ink',
  sound: '--sound',
  focus: '--focus',
} as const;

export type Colours = Readonly<Record<keyof typeof tokens, string>>;

/**
 * The tokens as plain colours: `light-dark(...)` is resolved by letting the browser
 * colour an element with each of them.
 */
export function readColours(within: HTMLElement): Colours {
  const probe = document.createElement('span');
  // The section tells by its colours: with forced colours, too, it is drawn in those of the theme.
  probe.style.setProperty('forced-color-adjust', 'none');
  within.append(probe);
  const found = Object.entries(tokens).map(([name, token]) => {
    probe.style.color = `var(${token})`;
    return [name, getComputedStyle(probe).color];
  });
  probe.remove();
  return Object.fromEntries(found) as Colours;
}

/** Between two colours "rgb(r, g, b)", `share` of the way to the second. */
export function mixed(one: string, other: string, share: number): string {
  const parts = (colour: string) => (colour.match(/[\d.]+/g) ?? []).slice(0, 3).map(Number);
  const [from, to] = [parts(one), parts(other)];
  return `rgb(${from.map((value, k) => Math.round(value + ((to[k] ?? 0) - value) * share)).join(', ')})`;
}

/** The ground of a band: darker, the deeper it lies. */
export function groundOf(colours: Colours, depth: number, deepest: number): string {
  const share = deepest > 0 ? depth / deepest : 0;
  return mixed(colours.stratum2, mixed(colours.stratum3, colours.ruleStrong, 0.3), share);
}
