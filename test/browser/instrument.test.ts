/** Readings taken from a simulated instrument on a serial port, and from one that types. */
import type { Page } from 'playwright-core';
import { describe, expect, it } from 'vitest';
import { simulatedSerial } from '../simulated-serial.ts';
import { cellOf, textOf } from './chromium.ts';
import { withApp } from './with-app.ts';

const app = withApp();

type Simulated = ReturnType<typeof simulatedSerial>;
const SETTLED_MS = 250;

/** Loads the page anew with a serial port that the test speaks through. */
async function withPort(
  page: Page,
): Promise<(what: keyof Simulated, given?: string) => Promise<void>> {
  await page.addInitScript(`
    globalThis.instrument = (${simulatedSerial.toString()})();
    Object.defineProperty(navigator, 'serial', { value: globalThis.instrument.serial });
  `);
  await page.reload();
  await page.getByRole('button', { name: '+ New strip' }).click();
  await page.getByText('Take readings from an instrument').click();
  return (what, given) =>
    page.evaluate(
      ([name, argument]) => {
        const { instrument } = globalThis as unknown as {
          instrument: Record<string, (argument?: string) => void>;
        };
        instrument[name!]!(argument);
      },
      [what, given],
    );
}

const panel = (page: Page) => page.locator('wb-instrument');
const connect = async (page: Page) => {
  await panel(page).getByRole('button', { name: 'Connect the instrument' }).click();
  await panel(page).getByText('Connected: take a reading.').waitFor();
  await page.waitForTimeout(SETTLED_MS);
};

describe('readings from an instrument', () => {
  it('are learnt by example, and go into the next cell, and on', async () => {
    const { page } = app;
    const port = await withPort(page);
    await connect(page);
    await port('send', '001 1,3');
    await port('send', '6 D\r\n');
    await panel(page).getByText('Which number is the reading?').waitFor();
    expect(await cellOf(page, 0, 1).inputValue()).toBe('');
    await panel(page).getByLabel('Number that the instrument shows').fill('1.36');
    await page.keyboard.press('Enter');
    await panel(page).getByText('Found: the 2nd number').waitFor();
    await port('send', '002 1,36 D\r\n003 1,31 D\r\n');
    await expect.poll(() => cellOf(page, 0, 1).inputValue()).toBe('1.36');
    await expect.poll(() => cellOf(page, 1, 1).inputValue()).toBe('1.31');
    expect(await textOf(page.locator('[aria-live=polite]').first())).toBe(
      'Step 2, reading 1: 1.31. Next: Step 3, reading 1.',
    );
    // A line of another kind is asked about, and enters nothing.
    await port('send', 'LAMP 25\r\n');
    const lamp = panel(page).getByRole('row').filter({ hasText: 'LAMP 25' });
    expect(await textOf(lamp)).toContain('not entered: which number');
    expect(await cellOf(page, 2, 1).inputValue()).toBe('');
    // The user goes elsewhere, and the readings follow; undo takes the last one back.
    await cellOf(page, 10, 1).focus();
    await port('send', '004 0,52 D\r\n');
    await expect.poll(() => cellOf(page, 10, 1).inputValue()).toBe('0.52');
    await page.keyboard.press('Control+z');
    await expect.poll(() => cellOf(page, 10, 1).inputValue()).toBe('');
    expect(await cellOf(page, 1, 1).inputValue()).toBe('1.31');
  });

  it('of a port that goes in mid-line enter nothing half, and go on when it is back', async () => {
    const { page } = app;
    const port = await withPort(page);
    await connect(page);
    await port('send', '1.36\r');
    await panel(page).getByLabel('Number that the instrument shows').fill('1.36');
    await panel(page).getByRole('button', { name: 'Find it' }).click();
    await port('send', '1.36\r1.31\r1.2');
    await expect.poll(() => cellOf(page, 1, 1).inputValue()).toBe('1.31');
    await port('unplug');
    await panel(page).getByText('nothing of that was entered').waitFor();
    expect(await cellOf(page, 2, 1).inputValue()).toBe('');
    await port('plugIn');
    await panel(page).getByText('Connected: take a reading.').waitFor();
    await page.waitForTimeout(SETTLED_MS);
    await port('send', '1.24\r');
    await expect.poll(() => cellOf(page, 2, 1).inputValue()).toBe('1.24');
    // What was learnt is kept in the browser.
    await page.reload();
    await page.getByText('Take readings from an instrument').click();
    await connect(page);
    await port('send', '1.18\r');
    await expect.poll(() => cellOf(page, 3, 1).inputValue()).toBe('1.18');
  });

  it('that type like a keyboard go from step to step, and to the next column', async () => {
    const { page } = app;
    await page.getByRole('button', { name: '+ New strip' }).click();
    await expect
      .poll(() => cellOf(page, 0, 1).evaluate((cell) => cell.matches(':focus')))
      .toBe(true);
    for (let step = 0; step < 22; step++) {
      await page.keyboard.type((1.5 - step * 0.05).toFixed(2));
      await page.keyboard.press('Enter');
    }
    expect(await cellOf(page, 0, 1).inputValue()).toBe('1.50');
    expect(await cellOf(page, 20, 1).inputValue()).toBe('0.50');
    expect(await cellOf(page, 0, 2).inputValue()).toBe('0.45');
  });

  it('light up at their cell when they do not lie on the curve so far', async () => {
    const { page } = app;
    const kept = await cellOf(page, 8, 1).inputValue();
    const doubt = page.locator('wb-worksheet .doubt');
    expect(await doubt.count()).toBe(0);
    await cellOf(page, 8, 1).fill((Number(kept) + 0.3).toFixed(2));
    // The mark at once, the sentence when the cell is left.
    await page.locator('wb-worksheet .doubtful .mark').waitFor();
    expect(await doubt.count()).toBe(0);
    await page.keyboard.press('Enter');
    await doubt.waitFor();
    expect(await textOf(doubt)).toMatch(/lies far from the curve .* read it again/);
    expect(await cellOf(page, 8, 1).getAttribute('aria-describedby')).toBe('doubt-8');
    expect(await textOf(page.locator('[aria-live=polite]').first())).toContain('lies far from');
    await cellOf(page, 8, 1).fill(kept);
    await expect.poll(() => page.locator('wb-worksheet .doubtful').count()).toBe(0);
  });
});
