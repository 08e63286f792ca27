/**
 * A new user without a mouse: from nothing to a notebook of three strips that is kept, exported and
 * opened again, once typed and once pasted from a spreadsheet. Prints the keys that it takes.
 */
import { describe, expect, it } from 'vitest';
import { cellOf, textOf, type AppPage } from './chromium.ts';
import { keyboardWalk, type Walk } from './keyboard-walk.ts';
import { withBrowser } from './with-app.ts';

const app = withBrowser();

const STEPS = 21;
/** Densities of an invented film: a straight line with a toe, as read, two decimals. */
const densitiesOf = (slope: number): string[] =>
  Array.from({ length: STEPS }, (_, step) =>
    (0.12 + slope * 0.3 * Math.log1p(Math.exp((2.2 - 0.15 * step) / 0.3))).toFixed(2),
  );
const STRIPS = [0.5, 0.6, 0.7].map(densitiesOf);

/** Begins an empty notebook and its first strip. */
async function begin({ page }: AppPage, walk: Walk): Promise<void> {
  await walk.tabTo(/^Start an empty notebook$/);
  await walk.press('Enter');
  // The button is gone; the focus stands where the work goes on.
  await expect.poll(async () => (await walk.focused()).name).toBe('+ New strip');
  await walk.press('Enter');
  await expect.poll(async () => (await walk.focused()).name).toBe('Step 1, reading 1');
  expect(await page.locator('wb-readings .rack button').count()).toBe(1);
}

async function exportAndOpenAgain(first: AppPage, walk: Walk): Promise<AppPage> {
  await expect
    .poll(() => first.page.locator('header .kept [data-saved]').count(), { timeout: 5000 })
    .toBe(1);
  const [download] = await Promise.all([
    first.page.waitForEvent('download'),
    walk.press('Control+s'),
  ]);
  const file = await download.path();
  const again = await app.open();
  await again.page.bringToFront();
  const opened = keyboardWalk(again.page);
  const choosing = again.page.waitForEvent('filechooser');
  // The browser has to know that the chooser is waited for before the key opens it.
  await again.page.evaluate(() => document.title);
  await opened.press('Control+o');
  const chooser = await choosing;
  await chooser.setFiles(file);
  await again.page.getByRole('dialog').waitFor();
  // The dialog holds the focus, and gives it back to the page.
  await opened.tabTo(/^Replace$/);
  await opened.press('Enter');
  await again.page.getByRole('dialog').waitFor({ state: 'detached' });
  await expect.poll(async () => (await opened.focused()).name).not.toBe('(nothing)');
  walk.count(opened.keys());
  return again;
}

async function expectStrips({ page, faults }: AppPage): Promise<void> {
  const rack = page.locator('wb-readings .rack button');
  await expect.poll(() => rack.count()).toBe(STRIPS.length);
  for (const [index, densities] of STRIPS.entries()) {
    await rack.nth(index).press('Enter');
    for (const row of [0, 1, 10, STEPS - 1]) {
      await expect.poll(() => cellOf(page, row, 1).inputValue()).toBe(densities[row]);
    }
  }
  expect(faults).toEqual([]);
}

describe('by keyboard alone', () => {
  it('three strips are typed, kept, exported and opened again', async () => {
    const first = await app.open();
    const walk = keyboardWalk(first.page);
    const from = performance.now();
    await begin(first, walk);
    for (const [index, densities] of STRIPS.entries()) {
      if (index > 0) await walk.press('Control+Enter');
      await expect.poll(async () => (await walk.focused()).name).toBe('Step 1, reading 1');
      for (const density of densities) {
        await walk.type(density);
        await walk.press('Enter');
      }
    }
    // Back to the list of strips, on to the name.
    await walk.press('Escape');
    expect((await walk.focused()).tag).toBe('button');
    await walk.tabTo(/^Name$/);
    await walk.type('third');
    const again = await exportAndOpenAgain(first, walk);
    print('typed', walk, from);
    await expectStrips(again);
    expect(await textOf(again.page.locator('wb-readings .rack button').last())).toContain('third');
    await again.close();
    await first.close();
  });

  it('three strips are pasted from a spreadsheet, upright and lying, and opened again', async () => {
    const first = await app.open({
      context: { permissions: ['clipboard-read', 'clipboard-write'] },
    });
    const { page } = first;
    const walk = keyboardWalk(page);
    const copied = async (text: string) => {
      await page.evaluate((words) => navigator.clipboard.writeText(words), text);
    };
    const from = performance.now();
    await begin(first, walk);
    const upright = ['step\tdensity', ...(STRIPS[0] ?? []).map((each, i) => `${i + 1}\t${each}`)];
    const tables = [
      upright.join('\r\n'),
      (STRIPS[1] ?? []).join('\t'),
      (STRIPS[2] ?? []).map((each) => each.replace('.', ',')).join('\n'),
    ];
    for (const [index, table] of tables.entries()) {
      if (index > 0) await walk.press('Control+Enter');
      await expect.poll(async () => (await walk.focused()).name).toBe('Step 1, reading 1');
      await copied(table);
      await walk.press('Control+v');
      await expect.poll(() => cellOf(page, STEPS - 1, 1).inputValue()).not.toBe('');
      expect((await walk.focused()).name).toMatch(/^Step \d+, reading 1$/);
    }
    const again = await exportAndOpenAgain(first, walk);
    print('pasted', walk, from);
    await expectStrips(again);
    await again.close();
    await first.close();
  });
});

function print(how: string, walk: Walk, from: number): void {
  const seconds = (performance.now() - from) / 1000;
  console.log(`three strips ${how}: ${walk.keys()} keys, ${seconds.toFixed(1)} s by this script`);
}
