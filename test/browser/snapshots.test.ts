/** Snapshots, the browser's promise, and what happens when there is no room or no storage at all. */
import { describe, expect, it } from 'vitest';
import { cellOf, textOf, type AppPage } from './chromium.ts';
import { withApp } from './with-app.ts';

const app = withApp();

const title = () => app.page.getByLabel('Title of the notebook');
const saved = (page = app.page) =>
  page.locator('header .kept span').first().getAttribute('data-saved');
const keptHere = () => app.page.getByRole('button', { name: 'Kept here' }).first();
const dialog = () => app.page.getByRole('dialog');

/** Types a title and waits until it is kept. */
async function retitle(name: string, page = app.page): Promise<void> {
  const before = await saved(page);
  await page.getByLabel('Title of the notebook').fill(name);
  await expect.poll(() => saved(page)).not.toBe(before);
}

describe('snapshots', () => {
  it('are taken in passing, by hand, and before another notebook takes the place', async () => {
    const { page } = app;
    await retitle('First');
    await keptHere().click();
    await expect.poll(() => dialog().locator('[data-snapshot]').count()).toBe(1);
    await dialog().getByRole('button', { name: 'Take one now' }).click();
    await expect.poll(() => dialog().locator('[data-snapshot]').count()).toBe(2);
    expect(await textOf(dialog().locator('[data-snapshot]').first())).toMatch(
      /“First”.*\d+ strips, 3 negatives, \d+ papers, \d+ prints?;.*taken by hand/,
    );
    await dialog().getByRole('button', { name: 'Close' }).click();
    await page.getByRole('button', { name: 'Start an empty notebook' }).click();
    await expect.poll(() => title().inputValue()).toBe('Notebook');
    await keptHere().click();
    await expect.poll(() => dialog().locator('[data-snapshot]').count()).toBe(3);
    expect(await textOf(dialog().locator('[data-snapshot]').first())).toContain(
      'before another notebook took its place',
    );
  });

  it('bring a notebook back as one step of undo', async () => {
    await retitle('First');
    await keptHere().click();
    await dialog().getByRole('button', { name: 'Take one now' }).click();
    await dialog().getByRole('button', { name: 'Close' }).click();
    await retitle('Second');
    await keptHere().click();
    const back = dialog().getByRole('button', { name: /Go back to it: “First”/ });
    await back.first().click();
    await expect.poll(() => title().inputValue()).toBe('First');
    await app.page.keyboard.press('Control+z');
    expect(await title().inputValue()).toBe('Second');
  });

  it('are there after a reload, and go when they are deleted', async () => {
    const snapshots = dialog().locator('[data-snapshot]');
    await retitle('First');
    // It is written after the notebook, and the reload is not to come between.
    await expect
      .poll(async () => {
        await keptHere().click();
        await dialog().waitFor();
        const count = await snapshots.count();
        await dialog().getByRole('button', { name: 'Close' }).click();
        return count;
      })
      .toBe(1);
    await app.page.reload();
    await app.page.locator('wb-sheet svg').first().waitFor();
    await keptHere().click();
    await expect.poll(() => snapshots.count()).toBe(1);
    await dialog()
      .getByRole('button', { name: /^Delete: / })
      .click();
    await expect.poll(() => snapshots.count()).toBe(0);
    expect(await textOf(dialog())).toContain('1 snapshot deleted.');
  });

  it('are exported as files that open again', async () => {
    await retitle('First');
    await keptHere().click();
    const [download] = await Promise.all([
      app.page.waitForEvent('download'),
      dialog()
        .getByRole('button', { name: /^Export: / })
        .click(),
    ]);
    await dialog().getByRole('button', { name: 'Close' }).click();
    await app.page.locator('input[type=file]').setInputFiles(await download.path());
    await dialog().waitFor();
    expect(await textOf(dialog())).toContain('nothing would change');
  });
});

describe('the browser', () => {
  it('is asked to keep the notebook, and its answer is told', async () => {
    await keptHere().click();
    await dialog().getByRole('button', { name: 'Ask the browser to keep it' }).click();
    await expect
      .poll(() => textOf(dialog().getByRole('status')))
      .toMatch(/promised to keep it|made no promise/);
    expect(await textOf(dialog())).toMatch(/It was never exported/);
    expect(await textOf(dialog())).toMatch(/It uses .* of about .* that the browser allows/);
  });

  it('has no room left: that is told, with ways out, and nothing is lost', async () => {
    const { page } = app;
    await retitle('Kept');
    // What the database says when the disk, or the browser's share of it, is full.
    await page.evaluate(() => {
      const prototype = IDBObjectStore.prototype as { put: unknown };
      const { put } = prototype;
      prototype.put = () => {
        throw new DOMException('', 'QuotaExceededError');
      };
      Object.assign(globalThis, {
        makeRoom: () => {
          prototype.put = put;
        },
      });
    });
    await title().fill('Not kept');
    const alert = page.getByRole('alert');
    await alert.waitFor();
    expect(await textOf(alert)).toMatch(/no room left.*Export now/);
    const [download] = await Promise.all([
      page.waitForEvent('download'),
      alert.getByRole('button', { name: 'Export now' }).click(),
    ]);
    expect(download.suggestedFilename()).toMatch(/^not-kept-/);
    await alert.getByRole('button', { name: 'Kept here' }).click();
    await dialog()
      .getByRole('button', { name: /^Delete: / })
      .first()
      .click();
    await expect.poll(() => dialog().locator('[data-snapshot]').count()).toBe(0);
    await dialog().getByRole('button', { name: 'Close' }).click();
    await page.evaluate(() => {
      (globalThis as unknown as { makeRoom: () => void }).makeRoom();
    });
    await alert.getByRole('button', { name: 'Try again' }).click();
    await alert.waitFor({ state: 'detached' });
    await page.reload();
    expect(await title().inputValue()).toBe('Not kept');
  });
});

describe('storage that is barred', () => {
  it('leaves the app to be worked with, and says that nothing is kept', async () => {
    const bare = await app.open({
      script: () => {
        Object.defineProperty(IDBFactory.prototype, 'open', {
          value: () => {
            throw new DOMException('The operation is insecure.', 'SecurityError');
          },
        });
        Object.defineProperty(globalThis, 'localStorage', {
          get: () => {
            throw new DOMException('Access is denied.', 'SecurityError');
          },
        });
      },
    });
    await worksWithoutStorage(bare);
    await bare.close();
  });
});

async function worksWithoutStorage({ page, faults }: AppPage): Promise<void> {
  const alert = page.getByRole('alert');
  await alert.waitFor();
  expect(await textOf(alert)).toMatch(/cannot be kept in this browser.*Export it to a file now/);
  await cellOf(page, 0, 1).fill('1.41');
  await page.getByLabel('Title of the notebook').fill('Not kept');
  const [download] = await Promise.all([
    page.waitForEvent('download'),
    alert.getByRole('button', { name: 'Export now' }).click(),
  ]);
  expect(download.suggestedFilename()).toMatch(/^not-kept-/);
  await page.getByRole('button', { name: 'Kept here' }).first().click();
  await page.getByText('They cannot be read in this browser.').waitFor();
  expect(faults).toEqual([]);
}
