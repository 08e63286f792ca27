import type { Page } from 'playwright-core';
import { describe, expect, it } from 'vitest';
import { axeFindings } from './axe-findings.ts';
import { textOf, type Theme } from './chromium.ts';
import { withApp } from './with-app.ts';

const THEMES: readonly Theme[] = ['light', 'dim', 'darkroom'];

const app = withApp();

/** Goes to the station as a reader does. */
async function goTo(page: Page): Promise<void> {
  await page.locator('nav a', { hasText: 'Print' }).click();
  await page.locator('wb-printing #title').waitFor();
}
const choosePaper = (page: Page, label: string) =>
  page.locator('wb-paper #paper').selectOption({ label });
/** Cells of a table of the station, row by row. */
const cells = async (page: Page, table: string): Promise<string[][]> => {
  const rows = await page.locator(`wb-printing ${table} tbody tr`).all();
  return Promise.all(
    rows.map(async (row) =>
      Promise.all((await row.locator('th, td').all()).map((cell) => textOf(cell))),
    ),
  );
};
const number = (cell: string | undefined): number =>
  Number((cell ?? '').replace('−', '-').replace(/^([+-]?[\d.]+).*$/su, '$1'));

describe('the print', () => {
  it('counts seconds from the one exposure that was found right', async () => {
    const { page } = app;
    await goTo(page);
    const [before, after] = await cells(page, '#prints');
    // t2 = t1 2^stops, what a stop is (derived); figures as shown, to a tenth of a second.
    const expected = number(before?.[3]) * 2 ** number(after?.[2]);
    expect(Math.abs(number(after?.[3]) - expected)).toBeLessThan(0.15);
    await page.locator('wb-printing #baseSeconds input').fill('28');
    await expect.poll(async () => number((await cells(page, '#prints'))[0]?.[3])).toBe(28);
    const doubled = number((await cells(page, '#prints'))[1]?.[3]);
    expect(Math.abs(doubled - 2 * number(after?.[3]))).toBeLessThan(0.15);
  });

  it('says what cannot be printed, and what is nearest', async () => {
    const { page } = app;
    await goTo(page);
    await page.locator('wb-printing #shadowPrintDensity input').fill('2.9');
    const station = page.locator('wb-printing .station');
    await expect.poll(() => textOf(station)).toMatch(/does not hold\. It reaches from 0\.\d\d to/);
    await page.locator('wb-printing #shadowPrintDensity input').fill('0.05');
    await expect.poll(() => textOf(station)).toMatch(/Exchange the two densities|does not hold/);
  });

  it('splits soft and hard light by own strips, and burns in', async () => {
    const { page } = app;
    await choosePaper(page, 'Variable-contrast paper');
    await goTo(page);
    const split = page.locator('wb-split');
    expect(await textOf(split.locator('p').first())).toMatch(/From your own strips/);
    const perStop = await cells(page, '#per-stop');
    const [highlight, , shadow] = perStop;
    // Soft light counts for more in the highlight, hard light in the shadow (published, VCSHEET).
    const softAgainstHard = (row: string[] | undefined) => number(row?.[2]) / number(row?.[3]);
    expect(softAgainstHard(highlight)).toBeGreaterThan(softAgainstHard(shadow));
    await page.getByRole('button', { name: 'Take this split' }).last().click();
    await expect.poll(async () => (await cells(page, '#wall')).length).toBe(2);
    await page.locator('wb-wall #add-area').click();
    await expect.poll(async () => (await cells(page, '#wall')).length).toBe(3);
    const [soft, , burn] = await cells(page, '#wall');
    // Half a stop more of soft light: t (2^0.5 - 1) (derived).
    expect(Math.abs(number(burn?.[3]) - number(soft?.[3]) * (2 ** 0.5 - 1))).toBeLessThan(0.02);
    await page.reload();
    await goTo(page);
    await expect.poll(async () => (await cells(page, '#wall')).length).toBe(3);
  });

  it('follows one tone through the four quadrants', async () => {
    const { page } = app;
    await goTo(page);
    const way = () => page.locator('wb-chain [data-name="cursor-after"]').first().getAttribute('d');
    const first = await way();
    await page.locator('wb-chain #follow input[type=text]').fill('6');
    await expect.poll(way).not.toBe(first);
    const rows = await cells(page, '#gradients');
    // Gradients multiply (Jones 1920): figures as shown, so to a few hundredths.
    const stages = rows.slice(0, 6).map((row) => number(row[1]));
    const product = stages.reduce((a, b) => a * b, 1);
    expect(Math.abs(product - number(rows[6]?.[1]))).toBeLessThan(0.05 * Math.max(1, product));
  });

  it('notes a print that was made', async () => {
    const { page } = app;
    await goTo(page);
    const notes = page.locator('wb-prints-made details');
    const before = await notes.count();
    await page.locator('#note-print').click();
    await expect.poll(() => notes.count()).toBe(before + 1);
    await page.keyboard.press('Control+z');
    await expect.poll(() => notes.count()).toBe(before);
  });

  it('tells an empty notebook what to do first', async () => {
    const { page } = app;
    await page.getByRole('button', { name: 'Start an empty notebook' }).click();
    await goTo(page);
    expect(await textOf(page.locator('wb-printing .station'))).toMatch(
      /Name the shadow and the highlight/,
    );
  });
});

describe('the station of the print', () => {
  it.each(THEMES)('has nothing wrong by the rules of axe-core, %s', async (theme) => {
    const { page, close, faults } = await app.open({ theme });
    await choosePaper(page, 'Variable-contrast paper');
    await goTo(page);
    await page.locator('wb-wall #add-area').click();
    expect(await axeFindings(page, '#printing')).toEqual([]);
    expect(faults).toEqual([]);
    await close();
  });

  it.each([360, 1024, 1920])('needs no sideways scrolling at %d pixels', async (width) => {
    const { page, close } = await app.open({ width });
    await goTo(page);
    expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(
      width,
    );
    await close();
  });
});
