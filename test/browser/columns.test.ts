/** Saying what the columns of a table are, where names and numbers leave a doubt. */
import { describe, expect, it } from 'vitest';
import { cellOf, pasteInto, textOf } from './chromium.ts';
import { withApp } from './with-app.ts';

const app = withApp();

const densities = Array.from({ length: 9 }, (_, i) => (1.5 - 0.15 * i).toFixed(2));
const unclear = ['spot\tbefore\tafter', ...densities.map((d, i) => `${i + 1}\t${i}\t${d}`)];
const question = () => app.page.locator('wb-column-match');
const column = (number: number) => question().getByLabel(`Column ${number} is`);

describe('a pasted table whose columns are not clear', () => {
  it('is asked about, taken as said, and known the next time', async () => {
    const { page } = app;
    await page.getByRole('button', { name: '+ New strip' }).click();
    await pasteInto(page, 0, 1, unclear.join('\n'));
    await question().getByText('What are these columns?').waitFor();
    expect(await cellOf(page, 0, 1).inputValue()).toBe('');
    await column(1).selectOption('step');
    await column(2).selectOption('step');
    expect(await textOf(question().locator('.wrong'))).toContain('only readings may come more');
    const take = question().getByRole('button', { name: 'Take them so' });
    expect(await take.isDisabled()).toBe(true);
    await column(2).selectOption('left out');
    await take.click();
    await expect.poll(() => cellOf(page, 0, 1).inputValue()).toBe('1.50');
    expect(await cellOf(page, 0, 2).inputValue()).toBe('');
    expect(await question().count()).toBe(0);

    await page.getByRole('button', { name: '+ New strip' }).click();
    await pasteInto(page, 0, 1, unclear.join('\n'));
    await expect.poll(() => cellOf(page, 8, 1).inputValue()).toBe('0.30');
    expect(await question().count()).toBe(0);

    // Asked for by the user, and taken otherwise in place of the first way.
    await page.getByRole('button', { name: 'The pasted columns are something else' }).click();
    await column(2).selectOption('reading');
    await column(3).selectOption('left out');
    await take.click();
    await expect.poll(() => cellOf(page, 8, 1).inputValue()).not.toBe('0.30');
  });

  it('leaves everything as it was where the user wants nothing of it', async () => {
    const { page } = app;
    const before = await cellOf(page, 0, 1).inputValue();
    await pasteInto(page, 0, 1, unclear.join('\n'));
    await question().getByRole('button', { name: 'Take nothing' }).click();
    await expect.poll(() => question().count()).toBe(0);
    expect(await cellOf(page, 0, 1).inputValue()).toBe(before);
  });
});

describe('a file of an unknown kind', () => {
  it('becomes a strip for each column, and its row is named where a cell cannot be read', async () => {
    const { page } = app;
    // Control strips are folded away in a rack of their own.
    const rack = page.locator('wb-readings .rack').first();
    const strips = await rack.getByRole('button').count();
    const rows = densities.map((d, i) => `${i + 1};${d.replace('.', ',')};${d}`);
    const file = (lines: readonly string[]) => ({
      name: 'wedges.csv',
      mimeType: 'text/csv',
      buffer: Buffer.from(['patch no;five minutes;seven minutes', ...lines].join('\n')),
    });
    await page.locator('input#file').setInputFiles(file(rows));
    await question().getByText('What are these columns?').waitFor();
    expect(await column(2).inputValue()).toBe('strip_density');
    await column(1).selectOption('step');
    await question().getByRole('button', { name: 'Take them so' }).click();
    await expect.poll(() => rack.getByRole('button').count()).toBe(strips + 2);
    expect(await textOf(rack)).toContain('seven minutes');
    expect(await cellOf(page, 0, 1).inputValue()).toBe('1.50');

    // The same names of columns once more: known now; but a cell that is no number is named.
    await page.locator('input#file').setInputFiles(file([...rows.slice(0, 3), '4;blot;1,05']));
    await question().getByRole('button', { name: 'Take them so' }).click();
    await page.getByText(/row 5, column "density".*blot/).waitFor();
    expect(await rack.getByRole('button').count()).toBe(strips + 2);
  });
});
