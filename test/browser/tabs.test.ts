/** Two tabs on one notebook, clocks that go wrong, and what newer versions have kept. */
import type { Page } from 'playwright-core';
import { describe, expect, it } from 'vitest';
import { cellOf, textOf } from './chromium.ts';
import { withApp } from './with-app.ts';

const app = withApp();

const titleOf = (page: Page) => page.getByLabel('Title of the notebook');
const saved = (page: Page) => page.locator('header .kept span').first().getAttribute('data-saved');

async function secondTab(): Promise<Page> {
  const tab = await app.page.context().newPage();
  await tab.goto(app.page.url());
  await tab.locator('wb-sheet svg').first().waitFor();
  return tab;
}

/** The kept notebook, as the database holds it. */
function keptIn(page: Page): Promise<{ revision: number; notebook: { document: unknown } }> {
  return page.evaluate(
    () =>
      new Promise((resolve, reject) => {
        const opening = indexedDB.open('wedgebook');
        opening.onerror = () => {
          reject(new Error('the database does not open'));
        };
        opening.onsuccess = () => {
          const reading = opening.result.transaction('kept').objectStore('kept').get('notebook');
          reading.onsuccess = () => {
            opening.result.close();
            resolve(reading.result as never);
          };
        };
      }),
  );
}

describe('two tabs', () => {
  it('follow each other', async () => {
    const other = await secondTab();
    await titleOf(app.page).fill('Changed in the first');
    await expect.poll(() => titleOf(other).inputValue()).toBe('Changed in the first');
    await cellOf(other, 0, 1).fill('1.41');
    await expect.poll(() => cellOf(app.page, 0, 1).inputValue()).toBe('1.41');
    expect(await titleOf(app.page).inputValue()).toBe('Changed in the first');
    await other.close();
  });

  it('lose nothing where both change at once: apart, both hold; alike, both are kept', async () => {
    const other = await secondTab();
    // No word passes between the tabs, and both write within the pause of the other.
    for (const page of [app.page, other]) {
      await page.evaluate(() => {
        BroadcastChannel.prototype.postMessage = () => undefined;
      });
    }
    for (let round = 1; round <= 5; round += 1) {
      const first = await saved(app.page);
      const second = await saved(other);
      await Promise.all([
        cellOf(app.page, round, 1).fill(`1.${round}1`),
        other.locator('wb-negative input').first().fill(`negative of round ${round}`),
      ]);
      await expect.poll(() => saved(app.page)).not.toBe(first);
      await expect.poll(() => saved(other)).not.toBe(second);
    }
    await titleOf(other).fill('last');
    await expect
      .poll(async () => JSON.stringify((await keptIn(other)).notebook.document))
      .toContain('"title":"last"');
    const { document } = (await keptIn(other)).notebook;
    const kept = JSON.stringify(document);
    expect(kept).toContain('negative of round 5');
    for (let round = 1; round <= 5; round += 1) expect(kept).toContain(`1.${round}1`);
    await other.close();
  });

  it('keep both of an entry that both changed, and say so', async () => {
    const other = await secondTab();
    for (const page of [app.page, other]) {
      await page.evaluate(() => {
        BroadcastChannel.prototype.postMessage = () => undefined;
      });
    }
    const first = await saved(app.page);
    await cellOf(app.page, 0, 1).fill('1.11');
    await expect.poll(() => saved(app.page)).not.toBe(first);
    await cellOf(other, 0, 1).fill('1.22');
    await expect
      .poll(() => other.locator('wb-readings .rack button', { hasText: '(other tab)' }).count())
      .toBe(1);
    await expect
      .poll(() => textOf(other.locator('[role="status"][aria-live]').first()))
      .toMatch(/1 entry that both had changed is kept twice/);
    const kept = JSON.stringify((await keptIn(other)).notebook.document);
    expect(kept).toContain('1.11');
    await expect
      .poll(async () => JSON.stringify((await keptIn(other)).notebook.document))
      .toContain('1.22');
    await other.close();
  });
});

describe('a page that is closed at once', () => {
  it.each([
    ['as it is', 0],
    ['with the clock set back by years', -20 * 365 * 86_400_000],
  ])('has its last change at the next visit, the clock %s', async (_what, shift) => {
    const { page } = app;
    const first = await saved(page);
    await titleOf(page).fill('kept');
    await expect.poll(() => saved(page)).not.toBe(first);
    // The database takes no more: only the note is written.
    await page.evaluate((by) => {
      const now = Date.now.bind(Date);
      const Real = Date;
      globalThis.Date = class extends Real {
        constructor(...values: unknown[]) {
          super(...((values.length > 0 ? values : [now() + by]) as [number]));
        }
      } as DateConstructor;
      IDBDatabase.prototype.transaction = () => {
        throw new DOMException('', 'AbortError');
      };
    }, shift);
    await titleOf(page).fill('typed last');
    await page.reload();
    await page.locator('wb-sheet svg').first().waitFor();
    expect(await titleOf(page).inputValue()).toBe('typed last');
    await expect
      .poll(async () => JSON.stringify((await keptIn(page)).notebook.document))
      .toContain('typed last');
    expect(await page.evaluate(() => Object.keys(localStorage).join())).not.toContain('leaving');
  });
});

describe('what a newer version has kept', () => {
  it('is left as it is, and the page says so', async () => {
    const { page } = app;
    const first = await saved(page);
    await titleOf(page).fill('kept');
    await expect.poll(() => saved(page)).not.toBe(first);
    await page.evaluate(
      () =>
        new Promise<void>((resolve) => {
          const opening = indexedDB.open('wedgebook');
          opening.onsuccess = () => {
            const writing = opening.result.transaction('kept', 'readwrite');
            const newer = { format: 'wedgebook-notebook', schemaVersion: 99, document: { a: 1 } };
            writing.objectStore('kept').put({ notebook: newer, revision: 50 }, 'notebook');
            writing.oncomplete = () => {
              opening.result.close();
              resolve();
            };
          };
        }),
    );
    await page.reload();
    const alert = page.getByRole('alert');
    await alert.waitFor();
    expect(await textOf(alert)).toMatch(/newer version of this page has written.*Reload/);
    await titleOf(page).fill('must not be written');
    await page.waitForTimeout(600);
    expect((await keptIn(page)).notebook).toMatchObject({ schemaVersion: 99 });
  });
});
