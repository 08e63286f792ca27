/**
 * Negatives, readings, papers, baths and prints put into the notebook and taken out by the keyboard:
 * each act is said, and the focus is where the work goes on, never lost with what has gone.
 */
import type { Page } from 'playwright-core';
import { expect, it } from 'vitest';
import { textOf } from './chromium.ts';
import { withApp } from './with-app.ts';

const app = withApp();

/** Name of what has the focus, through the shadow trees. */
const focused = (page: Page) =>
  page.evaluate(() => {
    let element = document.activeElement;
    for (let inner = element; inner !== null; inner = inner.shadowRoot?.activeElement ?? null) {
      element = inner;
    }
    if (element === null || element === document.body) return 'nothing';
    const { labels } = element as Partial<HTMLInputElement>;
    const label = labels?.[0];
    return (element.ariaLabel ?? label?.textContent ?? element.textContent).trim();
  });
const said = (page: Page) => textOf(page.locator('wb-app .toast'));

async function press(page: Page, name: string): Promise<void> {
  await page.locator('wb-match').getByRole('button', { name, exact: true }).first().focus();
  await page.keyboard.press('Enter');
}

it('a new negative asks for its readings, tells of each, and gives the focus on when it goes', async () => {
  const { page } = app;
  await press(page, '+ New negative');
  await expect.poll(() => focused(page)).toBe('Add a shadow reading');
  expect(await said(page)).toMatch(/ added\. Type its shadow and highlight readings\.$/);
  await page.keyboard.type('0,35');
  await page.keyboard.press('Enter');
  await expect.poll(() => said(page)).toBe('shadow 0.35 added.');
  await page.keyboard.press('Tab');
  await page.keyboard.type('1.1');
  await page.keyboard.press('Enter');
  await expect.poll(() => said(page)).toBe('highlight 1.10 added.');
  await press(page, 'Remove shadow');
  await expect.poll(() => said(page)).toBe('shadow removed. Undo brings it back.');
  await expect.poll(() => focused(page)).toBe('Remove highlight');
  await page.keyboard.press('Enter');
  await expect.poll(() => focused(page)).toBe('Add a shadow reading');
  await press(page, 'Remove this negative');
  await expect.poll(() => focused(page)).toBe('Negative');
});

it('a paper of one’s own asks for its name, and the list of papers has the focus when it goes', async () => {
  const { page } = app;
  await press(page, '+ Own paper');
  await expect.poll(() => focused(page)).toBe('Name');
  expect(await said(page)).toMatch(/ added\. Say how it is known\.$/);
  await press(page, 'Remove this paper');
  await expect.poll(() => focused(page)).toBe('Paper');
});

it('nothing that is taken out elsewhere on the page takes the focus with it', async () => {
  const { page } = app;
  const baths = page.locator('wb-baths');
  const [film, bath] = [baths.locator('.remove-film'), baths.locator('.remove-bath')];
  const names = await film.evaluateAll((all) => all.map((each) => each.ariaLabel ?? ''));
  expect(names.length).toBe(2);
  await film.first().focus();
  await page.keyboard.press('Enter');
  await expect.poll(() => focused(page)).toBe(names[1]);
  await page.keyboard.press('Enter');
  await expect.poll(() => focused(page)).toBe('Add to this bath');
  await bath.first().focus();
  await page.keyboard.press('Enter');
  await expect.poll(() => focused(page)).toBe('+ Bath, mixed today');
  expect(await said(page)).toMatch(/ removed\. Undo brings it back\.$/);
  const trials = page.locator('wb-trials');
  await trials.locator('#add-trial').click();
  await trials.locator('.remove').last().focus();
  await page.keyboard.press('Enter');
  await expect.poll(() => focused(page)).toBe('+ Trial piece');
  await page.locator('nav a[href="#printing"]').click();
  const prints = page.locator('wb-prints-made');
  await prints.locator('summary').first().click();
  await prints.locator('.remove').first().focus();
  await page.keyboard.press('Enter');
  await expect.poll(() => focused(page)).toBe(await textOf(prints.locator('#note-print')));
});
