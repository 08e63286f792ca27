import { mkdtempSync, readFileSync, rmSync, truncateSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import type { NotebookDocument } from '@wedgebook/notebook';
import { describe, expect, it } from 'vitest';
import { cellOf, textOf } from './chromium.ts';
import { withApp } from './with-app.ts';

const app = withApp();

async function exported(): Promise<{ name: string; text: string }> {
  const [download] = await Promise.all([
    app.page.waitForEvent('download'),
    app.page.getByRole('button', { name: 'Export' }).click(),
  ]);
  return {
    name: download.suggestedFilename(),
    text: readFileSync(await download.path(), 'utf8'),
  };
}

const titleField = () => app.page.getByLabel('Title of the notebook');
const choose = (name: string, text: string) =>
  app.page
    .locator('input[type=file]')
    .setInputFiles({ name, mimeType: 'application/json', buffer: Buffer.from(text) });

describe('the notebook', () => {
  it('goes out to a file and comes back the same, unreadable entries and all', async () => {
    const { page } = app;
    await cellOf(page, 0, 1).fill('1.41');
    await cellOf(page, 1, 1).fill('oops');
    const first = await exported();
    expect(first.name).toMatch(/^ferry-.*\d{4}-\d\d-\d\d\.json$/);
    expect(
      await page
        .getByText(/exported \w/)
        .first()
        .isVisible(),
    ).toBe(true);
    const strips = (JSON.parse(first.text) as { document: NotebookDocument }).document.strips
      .length;
    await page.getByRole('button', { name: 'Start an empty notebook' }).click();
    await choose(first.name, first.text);
    const dialog = page.getByRole('dialog');
    await dialog.waitFor();
    expect(await textOf(dialog.getByRole('row', { name: /^strips/ }))).toBe(`strips ${strips}–––`);
    expect(await textOf(dialog)).toContain('new negatives: “Ferry coming in, first light”');
    await dialog.getByRole('button', { name: 'Replace' }).click();
    expect(await cellOf(page, 0, 1).inputValue()).toBe('1.41');
    expect(await cellOf(page, 1, 1).inputValue()).toBe('oops');
    expect((await exported()).text).toBe(first.text);
  });

  it('asks before an import replaces it, and undo brings it back', async () => {
    const { page } = app;
    const { text } = await exported();
    const other = text.replace('Ferry and landing stage in river fog', 'Another notebook');
    await choose('other.json', other);
    await page.getByRole('button', { name: 'Keep the present one' }).click();
    const title = titleField();
    expect(await title.inputValue()).toContain('Ferry');
    await choose('other.json', other);
    await page.getByRole('button', { name: 'Replace' }).click();
    expect(await title.inputValue()).toBe('Another notebook');
    await page.getByRole('button', { name: 'Undo' }).click();
    expect(await title.inputValue()).toContain('Ferry');
  });

  it('merges a file: adds what is new, keeps what differs beside the own, in one step of undo', async () => {
    const { page } = app;
    const { text } = await exported();
    const saved = JSON.parse(text) as { document: NotebookDocument };
    const [strip, ...strips] = saved.document.strips;
    const film = { id: 'new-film', name: 'roll film', developerId: null, note: '' };
    saved.document = {
      ...saved.document,
      strips: [{ ...strip!, note: 'another note' }, ...strips],
      films: [...saved.document.films, film],
    };
    await choose('other.json', JSON.stringify(saved));
    const dialog = page.getByRole('dialog');
    expect(await textOf(dialog.getByRole('row', { name: /^strips/ }))).toBe(
      `strips –1${strips.length}–`,
    );
    expect(await textOf(dialog.getByRole('row', { name: /^films/ }))).toBe('films 1–1–');
    await dialog.getByRole('button', { name: 'Merge' }).click();
    const rack = page.locator('wb-readings .rack button');
    expect(await rack.filter({ hasText: '(from the file)' }).count()).toBe(1);
    const merged = JSON.parse((await exported()).text) as { document: NotebookDocument };
    expect(merged.document.strips).toHaveLength(strips.length + 2);
    expect(merged.document.films.at(-1)).toEqual(film);
    await page.getByRole('button', { name: 'Undo' }).click();
    expect((await exported()).text).toBe(text);
  });

  it('shows all columns of the preview on a telephone', async () => {
    const { page } = app;
    const { text } = await exported();
    await page.setViewportSize({ width: 360, height: 740 });
    await choose('other.json', text.replace('Ferry and landing stage', 'Another'));
    const last = page.getByRole('dialog').getByRole('columnheader', { name: 'only here' });
    await last.waitFor();
    const room = await last.evaluate(
      (head) =>
        head.closest('dialog')!.clientWidth -
        (head as HTMLElement).getBoundingClientRect().right +
        head.closest('dialog')!.getBoundingClientRect().left,
    );
    expect(room).toBeGreaterThanOrEqual(8);
  });

  it('says that a file is the same as what is open', async () => {
    const { text } = await exported();
    await choose('same.json', text);
    const dialog = app.page.getByRole('dialog');
    expect(await textOf(dialog)).toContain('nothing would change');
    await dialog.getByRole('button', { name: 'Close' }).click();
    await dialog.waitFor({ state: 'detached' });
  });

  it.each([
    ['an empty file', ''],
    ['binary bytes', '\u0000\u0001\ufffd'],
    ['another kind of file', '{"format":"something else"}'],
    ['a newer notebook', '{"format":"wedgebook-notebook","schemaVersion":99,"document":{}}'],
  ])('refuses %s with a reason and changes nothing', async (_, text) => {
    const { page } = app;
    await choose('file.json', text);
    const alert = page.getByRole('alert');
    await alert.waitFor();
    expect(await textOf(alert)).toMatch(/nothing was changed/);
    expect(await page.getByLabel('Title of the notebook').inputValue()).toContain('Ferry');
  });

  it('refuses a file of 200 MB before it is read', async () => {
    const { page } = app;
    await page.evaluate(() => {
      Blob.prototype.text = () => Promise.reject(new Error('it was read'));
    });
    const folder = mkdtempSync(path.join(tmpdir(), 'wedgebook-huge-'));
    const file = path.join(folder, 'huge.json');
    writeFileSync(file, '{');
    truncateSync(file, 200e6);
    await page.locator('input[type=file]').setInputFiles(file);
    const alert = page.getByRole('alert');
    await alert.waitFor();
    expect(await textOf(alert)).toMatch(/nothing was changed.*huge\.json has 200 MB, more than/);
    rmSync(folder, { recursive: true });
  });

  it('opens a damaged notebook, names the figures that cannot be, and puts usual ones there', async () => {
    const { page } = app;
    const { text } = await exported();
    const saved = JSON.parse(text) as { document: NotebookDocument };
    const plan = { ...saved.document.plan, celsius: 1e300 };
    await choose(
      'damaged.json',
      JSON.stringify({ ...saved, document: { ...saved.document, plan } }),
    );
    await page.getByRole('button', { name: 'Replace' }).click();
    const notice = page.getByRole('status').filter({ hasText: 'cannot be' });
    await notice.waitFor();
    expect(await textOf(notice)).toContain('plan.celsius');
    await notice.getByRole('button').click();
    await notice.waitFor({ state: 'detached' });
    const mended = JSON.parse((await exported()).text) as { document: NotebookDocument };
    expect(mended.document.plan.celsius).toBe(20);
  });

  it('takes strips from a CSV file into the notebook, as one step of undo', async () => {
    const { page } = app;
    const csv = ['strip,log_exposure,density'];
    for (const name of ['north', 'south']) {
      for (let i = 0; i < 12; i++) {
        const x = -2.75 + 0.25 * i;
        csv.push(
          `${name},${x},${(0.1 + 0.6 * Math.log1p(Math.exp((x + 2) / 0.3)) * 0.3).toFixed(2)}`,
        );
      }
    }
    const strips = page.locator('wb-readings .rack button');
    const before = await strips.count();
    await page.locator('input[type=file]').setInputFiles({
      name: 'two.csv',
      mimeType: 'text/csv',
      buffer: Buffer.from(csv.join('\r\n')),
    });
    await expect.poll(() => strips.count()).toBe(before + 2);
    expect(await textOf(strips.locator('xpath=self::*[@aria-pressed="true"]'))).toMatch(/^north/);
    expect(await page.getByText('were taken as absolute').isVisible()).toBe(true);
    await page.getByRole('button', { name: 'Understood' }).click();
    await page.keyboard.press('Control+z');
    await expect.poll(() => strips.count()).toBe(before);
  });

  it('refuses a CSV with a word in a number, naming row, column and remedy', async () => {
    const { page } = app;
    const csv = 'strip,log_exposure,density\na,-2,0.1\na,-1,hello\n';
    await page
      .locator('input[type=file]')
      .setInputFiles({ name: 'bad.csv', mimeType: 'text/csv', buffer: Buffer.from(csv) });
    const alert = page.getByRole('alert');
    await alert.waitFor();
    expect(await textOf(alert)).toMatch(/bad\.csv.*row 3.*density/s);
  });

  it('keeps the theme over a reload', async () => {
    const { page } = app;
    await page.getByLabel('Theme').selectOption('darkroom');
    await page.reload();
    await page.locator('wb-sheet svg').first().waitFor();
    expect(await page.evaluate(() => document.documentElement.dataset['theme'])).toBe('darkroom');
    expect(await page.getByText('Red on black is no safelight').first().isVisible()).toBe(true);
  });
});

it('follows the system’s wish for a dark screen until a theme is chosen', async () => {
  const dark = await app.open({ context: { colorScheme: 'dark' } });
  await dark.page.getByLabel('Theme').selectOption('system');
  expect(await dark.page.evaluate(() => document.documentElement.dataset['theme'])).toBe('dim');
  await dark.page.emulateMedia({ colorScheme: 'light' });
  await expect
    .poll(() => dark.page.evaluate(() => document.documentElement.dataset['theme']))
    .toBe('light');
  await dark.close();
});
