/**
 * A notebook of a lifetime opened in Chromium on the built app: `npm run bench -- large-notebook
 * [strips]`, 1500 strips of 31 steps read twice unless given, 18 of them toned. For each step of the way, the time
 * until it shows, and the longest time for which the page answered nothing.
 *
 * A file of 200 MB is handed in last: it must be refused before it is read.
 */
import { mkdtempSync, rmSync, truncateSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import type { Page } from 'playwright-core';
import buildApp from '../browser/build-app.ts';
import { cellOf, launchChromium, openApp } from '../browser/chromium.ts';
import { serveApp } from '../browser/served-app.ts';
import { benchNotebook } from './keystroke/notebook.ts';

interface Kept {
  readonly document: {
    readonly strips: readonly Readonly<Record<string, unknown>>[];
  } & Readonly<Record<string, unknown>>;
}

/** Films of which strips were toned: the fit of the bath takes time by the cube of its strips. */
const TONED_FILMS = 6;

/** The year's work again and again, each time on another film. */
function notebookOf(count: number): string {
  const kept = JSON.parse(benchNotebook()) as Kept;
  const year = kept.document.strips;
  const strips = Array.from({ length: count }, (_, index) => {
    const strip = year[index % year.length] ?? {};
    const film = Math.floor(index / year.length);
    const treatment = strip['treatment'] as { readonly untreatedStripId: string } | null;
    return {
      ...strip,
      id: `${String(strip['id'])}-${film}`,
      name: `${String(strip['name'])} of film ${film + 1}`,
      filmId: `film-${film}`,
      treatment:
        film >= TONED_FILMS
          ? null
          : treatment && {
              ...treatment,
              untreatedStripId: `${treatment.untreatedStripId}-${film}`,
            },
    };
  });
  const films = Array.from({ length: Math.ceil(count / year.length) }, (_, film) => ({
    id: `film-${film}`,
    name: `film ${film + 1}`,
    developer: '',
    note: '',
  }));
  return JSON.stringify({ ...kept, document: { ...kept.document, strips, films } }, null, 2);
}

export async function main([strips = '1500']: readonly string[]): Promise<void> {
  buildApp();
  const server = await serveApp();
  const browser = await launchChromium();
  const folder = mkdtempSync(path.join(tmpdir(), 'wedgebook-bench-'));
  const { page } = await openApp(browser, server.url, { width: 1600, height: 1000 });
  try {
    await page.evaluate(() => {
      const tasks: number[] = [];
      Object.assign(globalThis, { tasks });
      new PerformanceObserver((list) => {
        for (const { duration } of list.getEntries()) tasks.push(duration);
      }).observe({ type: 'longtask' });
    });
    const file = path.join(folder, 'lifetime.json');
    const text = notebookOf(Number(strips));
    writeFileSync(file, text);
    console.log(`${strips} strips, ${(text.length / 1e6).toFixed(1)} MB`);

    const input = page.locator('input[type=file]').first();
    await timed(page, 'chosen, until the preview shows', async () => {
      await input.setInputFiles(file);
      await page.getByRole('dialog').waitFor();
    });
    await timed(page, 'replaced, until the first strip shows', async () => {
      await page.getByRole('button', { name: 'Replace' }).click();
      await page.locator('wb-readings .rack button', { hasText: 'of film 1' }).first().waitFor();
    });
    await timed(page, 'settled', () => page.waitForTimeout(8000));
    const saved = () => page.locator('header .kept span').first().getAttribute('data-saved');
    for (const typed of ['1.4', '1.42']) {
      const before = await saved();
      await timed(page, 'a reading typed, until it is kept', async () => {
        await cellOf(page, 3, 1).fill(typed);
        await page.waitForFunction(
          (was) =>
            document
              .querySelector('wb-app')
              ?.shadowRoot?.querySelector('header .kept span')
              ?.getAttribute('data-saved') !== was,
          before,
        );
      });
    }
    await timed(page, 'loaded again', async () => {
      await page.reload();
      await cellOf(page, 3, 1).waitFor();
    });

    const huge = path.join(folder, 'huge.json');
    writeFileSync(huge, '{');
    truncateSync(huge, 200e6);
    await timed(page, 'a file of 200 MB, until it is refused', async () => {
      await input.setInputFiles(huge);
      await page.getByRole('alert').waitFor();
    });
    console.log(await page.getByRole('alert').innerText());
  } finally {
    await browser.close();
    await server.close();
    rmSync(folder, { recursive: true, force: true });
  }
}

async function timed(page: Page, what: string, act: () => Promise<unknown>): Promise<void> {
  const start = performance.now();
  await act();
  const seconds = (performance.now() - start) / 1000;
  const longest = await page.evaluate(() => {
    const { tasks } = globalThis as unknown as { tasks?: number[] };
    return Math.max(0, ...(tasks?.splice(0) ?? []));
  });
  console.log(
    `${what.padEnd(42)} ${seconds.toFixed(2).padStart(7)} s, longest without an answer ${longest.toFixed(0).padStart(6)} ms`,
  );
}
