/** A careful typist, and the two pages that are typed into. */
import type { Browser, Locator, Page } from 'playwright-core';
import { cellOf, openApp } from '../../browser/chromium.ts';
import { benchNotebook, STEPS } from './notebook.ts';

/** A page with fields for numbers. */
export interface Desk {
  readonly page: Page;
  readonly fieldAt: (entry: number) => Locator;
  readonly close: () => Promise<void>;
}

/** The app with the notebook of the benchmark. */
export async function openNotebook(browser: Browser, url: string): Promise<Desk> {
  const { page, close } = await openApp(browser, url, { width: 1600, height: 1000 });
  await page.locator('input[type=file]').setInputFiles({
    name: 'bench.json',
    mimeType: 'application/json',
    buffer: Buffer.from(benchNotebook()),
  });
  await page.getByRole('button', { name: 'Replace' }).click();
  await page.locator('wb-worksheet tbody tr').nth(STEPS).waitFor();
  return { page, close, fieldAt: (entry) => cellOf(page, entry % STEPS, 1) };
}

/** A page with one field and nothing else: what no app can better. */
export async function openBarePage(browser: Browser): Promise<Desk> {
  const page = await browser.newPage({ viewport: { width: 1600, height: 1000 } });
  await page.setContent('<!doctype html><title>bare</title><input value="1.23">');
  return { page, close: () => page.close(), fieldAt: () => page.locator('input') };
}

/**
 * Goes down the strip and types each reading again, one hundredth off or not: most keys leave a
 * half-typed number that fits nowhere, as typing does. Keys fall at any moment of a frame.
 */
export async function typeReadings({ page, fieldAt }: Desk, keys: number): Promise<void> {
  let typed = '';
  for (let key = 0; key < keys; key++) {
    const entry = Math.floor(key / 4);
    if (key % 4 === 0) {
      const field = fieldAt(entry);
      typed = (Number(await field.inputValue()) + 0.01 * ((entry % 3) - 1)).toFixed(2);
      await field.focus();
      await page.keyboard.press('Control+a');
      await page.waitForTimeout(60);
    }
    await page.keyboard.type(typed[key % 4] ?? '0');
    await page.waitForTimeout(60 + 34 * Math.random());
  }
}
