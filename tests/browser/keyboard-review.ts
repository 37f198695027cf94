/**
 * Reviews the misses of a block by keyboard alone, as a person would, and counts the keys beyond the
 * text itself. Needs no test runner: `npm run bench -- keyboard` reviews twelve misses of a block of forty.
 */
import type { Page } from 'playwright-core';

export interface ReviewedMiss {
  readonly item: number;
  /** A name on the starter map, as it stands in the list. */
  readonly topic: string;
  readonly piece: string;
  readonly cause: string;
  /** 1 to 7, in the order of the form. */
  readonly reason: number;
  /** One line for each distractor that is written down. */
  readonly turns: readonly { readonly option: string; readonly turn: string }[];
}

export interface KeyCount {
  /** Keys pressed beyond the text: to find concepts, to move, to choose. Keys held together count each. */
  readonly keys: number;
  /** Of these, letters typed to find a topic or a cause. */
  readonly letters: number;
  readonly misses: number;
}

/** Opens a fresh block from the log, marks the items by their numbers and goes into the review. */
export async function markByKeyboard(page: Page, items: readonly number[]): Promise<number> {
  const typist = new Typist(page);
  await page.getByRole('button', { name: 'New block' }).focus();
  await typist.press('Enter');
  await page.getByText('40 items, none marked yet').waitFor();
  await typist.press('Alt+PageDown');
  await page.keyboard.type(items.join(', '));
  await typist.press('Enter');
  await page.getByText(`miss 1 of ${items.length}`, { exact: true }).waitFor();
  await typist.press('Alt+PageDown');
  return typist.keys;
}

/** Reviews misses in their order; the focus stands in the form of the first. */
export async function reviewByKeyboard(
  page: Page,
  misses: readonly ReviewedMiss[],
): Promise<KeyCount> {
  const typist = new Typist(page);
  for (const [index, miss] of misses.entries()) {
    await page.getByText(`miss ${index + 1} of ${misses.length}`, { exact: true }).waitFor();
    await inForm(page, 'Topic');
    await typist.letter(miss.topic);
    await typist.press('Tab');
    await page.getByRole('button', { name: `Take out ${miss.topic} from Topic` }).waitFor();
    await inForm(page, 'Missing piece');
    await page.keyboard.type(miss.piece);
    await nameCause(page, typist, miss.cause);
    await typist.press(String(miss.reason));
    await page
      .getByRole('radio')
      .nth(miss.reason + 1)
      .waitFor();
    for (const [at, { option, turn }] of miss.turns.entries()) {
      await typist.press(at === 0 ? 'Tab' : 'Enter');
      await page.keyboard.type(option);
      await typist.press('Enter');
      await page.keyboard.type(turn);
      if (at === miss.turns.length - 1) await typist.press('Enter');
    }
    await page.getByText(`${index + 1} of ${misses.length} misses reviewed`).waitFor();
    if (index < misses.length - 1) await typist.press('Enter');
  }
  return { keys: typist.keys, letters: typist.letters, misses: misses.length };
}

/** From the missing piece: one of the suggestions where the cause is among them, else by its letters. */
async function nameCause(page: Page, typist: Typist, cause: string): Promise<void> {
  const suggestions = page.getByRole('toolbar').getByRole('button');
  await page.getByText('saved', { exact: true }).first().waitFor();
  const offered = await suggestions.allTextContents();
  const at = offered.findIndex((name) => name.trim() === cause);
  await typist.press('Tab');
  if (at >= 0) {
    for (let step = 0; step < at; step++) await typist.press('ArrowRight');
    await typist.press('Enter');
  } else {
    if (offered.length > 0) await typist.press('Tab');
    await inForm(page, 'Named cause');
    await typist.letter(cause);
    await typist.press('Tab');
  }
  await page.getByRole('button', { name: `Take out ${cause} from Named cause` }).waitFor();
}

/** Waits until the focus stands in a field, so that no key goes astray. */
async function inForm(page: Page, label: string): Promise<void> {
  const id = await page.getByLabel(label, { exact: true }).getAttribute('id');
  await page.waitForFunction((wanted) => document.activeElement?.id === wanted, id);
}

class Typist {
  keys = 0;
  letters = 0;
  readonly #page: Page;

  constructor(page: Page) {
    this.#page = page;
  }

  async press(key: string): Promise<void> {
    this.keys += key.split('+').length;
    await this.#page.keyboard.press(key);
  }

  /** Types a name until the list marks it: no letter more than a person who watches the list. */
  async letter(name: string): Promise<void> {
    const marked = this.#page.locator('.picker-list [data-highlighted] > :first-child');
    for (const char of name.toLowerCase()) {
      this.keys += 1;
      this.letters += 1;
      await this.#page.keyboard.type(char);
      // The list is drawn in the frame after the letter.
      await this.#page.evaluate(
        () => new Promise((done) => requestAnimationFrame(() => setTimeout(done))),
      );
      if ((await marked.count()) > 0 && (await marked.first().textContent()) === name) return;
    }
    throw new Error(`the list does not mark “${name}” even when it is typed whole`);
  }
}

/** Twelve misses of a block of forty, on concepts of the starter map; all text is ours. */
export const twelveMisses: readonly ReviewedMiss[] = [
  miss(3, 'Anion gap', 'Diuretics waste what the loop would keep.', 'Diuretics', 2),
  miss(
    4,
    'Predictive values',
    'Prevalence moves the predictive value; the test stays as it is.',
    'Incidence and prevalence',
    1,
  ),
  miss(7, 'Vitamin K', 'Warfarin stops the enzyme that recycles vitamin K.', 'Vitamin K', 1),
  miss(
    11,
    'Hyponatraemia',
    'Antidiuretic hormone holds water; sodium only follows.',
    'Antidiuretic hormone and water balance',
    4,
  ),
  miss(
    12,
    'Brachial plexus and upper limb nerves',
    'A dropped wrist is the radial nerve in its groove.',
    'Brachial plexus and upper limb nerves',
    2,
  ),
  miss(
    15,
    'Complement',
    'Without C1 esterase inhibitor the swelling heeds no antihistamine.',
    'Complement',
    1,
  ),
  miss(
    18,
    'Glycogen storage diseases',
    'Fasting sugar fails at the last step of glycogen metabolism.',
    'Glycogen metabolism',
    4,
  ),
  miss(
    22,
    'Insulin secretion',
    'Muscle takes sugar up by GLUT4 once insulin acts, the liver does not.',
    'Insulin action',
    3,
  ),
  miss(
    26,
    'Renal clearance',
    'Clearance is urine flow times urine over plasma concentration.',
    'Renal clearance',
    2,
  ),
  miss(
    31,
    'Type I hypersensitivity',
    'Tryptase stays raised for hours after the mast cells let go.',
    'Type I hypersensitivity',
    5,
  ),
  miss(
    35,
    'Cranial nerves',
    'The fourth nerve turns the eye down while it looks in.',
    'Pupil reflexes and eye movements',
    1,
  ),
  miss(
    38,
    'Iron metabolism',
    'Hepcidin shuts the gate when there is inflammation.',
    'Iron metabolism',
    7,
  ),
];

function miss(
  item: number,
  topic: string,
  piece: string,
  cause: string,
  reason: number,
): ReviewedMiss {
  return { item, topic, piece, cause, reason, turns: [] };
}
