/** The app kept by the browser: it opens without a network, and takes up no newer version unasked. */
import { cpSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import type { Browser } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { cellOf, launchChromium, openApp } from './chromium.ts';
import { DIST, serveApp, type ServedApp } from './served-app.ts';

let browser: Browser;
let server: ServedApp;
let folder: string;

beforeAll(async () => {
  folder = mkdtempSync(path.join(tmpdir(), 'wedgebook-offline-'));
  cpSync(DIST, folder, { recursive: true });
  server = await serveApp(folder);
  browser = await launchChromium();
});
afterAll(async () => {
  await browser.close();
  await server.close();
  rmSync(folder, { recursive: true });
});

describe('the app kept by the browser', () => {
  it('opens without a network, with its notebook and every station', async () => {
    const { page, faults, close } = await openApp(browser, server.url, { mayKeepApp: true });
    await page.getByText('it opens without a network').waitFor();
    await cellOf(page, 0, 1).fill('1.37');
    await page.locator('[data-saved]').first().waitFor();
    await page.context().setOffline(true);
    await page.reload();
    await page.locator('wb-sheet svg').first().waitFor();
    expect(await cellOf(page, 0, 1).inputValue()).toBe('1.37');
    for (const station of ['printing', 'picture', 'development']) {
      await page.locator(`nav a[href="#${station}"]`).click();
      await page.locator(`wb-${station} h2`).waitFor();
    }
    expect(faults).toEqual([]);
    await close();
  });

  it('waits with a newer version until it is asked for, and loses no row', async () => {
    const { page, faults, close } = await openApp(browser, server.url, { mayKeepApp: true });
    await page.getByText('it opens without a network').waitFor();
    await page.evaluate(() => {
      document.body.dataset['visit'] = 'first';
    });
    const worker = path.join(folder, 'sw.js');
    writeFileSync(worker, `${readFileSync(worker, 'utf8')}\n// a later version\n`);
    await page.evaluate(async () => {
      await (await navigator.serviceWorker.ready).update();
    });
    const use = page.getByRole('button', { name: 'Use the newer version' });
    await use.waitFor();
    await cellOf(page, 2, 1).fill('1.29');
    expect(await page.evaluate(() => document.body.dataset['visit'])).toBe('first');
    await use.click();
    await page.waitForFunction(() => document.body.dataset['visit'] === undefined);
    await page.locator('wb-sheet svg').first().waitFor();
    expect(await cellOf(page, 2, 1).inputValue()).toBe('1.29');
    expect(await use.count()).toBe(0);
    expect(faults).toEqual([]);
    await close();
  });
});
