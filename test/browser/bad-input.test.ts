/**
 * Bad input on the page: every paste and every file is read as meant, or refused with place and
 * remedy, and costs nothing of what the user has written.
 */
import { describe, expect, it } from 'vitest';
import { cellOf, pasteInto, textOf } from './chromium.ts';
import { withApp } from './with-app.ts';

const app = withApp();

const said = () => textOf(app.page.locator('[aria-live=polite]'));
const rack = () => app.page.locator('wb-readings .rack button');
const sheet = () => app.page.locator('wb-readings .sheet-side');
/** What stands above the stations and beside the sheet. */
const warned = async () => `${await textOf(app.page.locator('main'))} ${await textOf(sheet())}`;

async function startEmpty(): Promise<void> {
  await app.page.getByRole('button', { name: 'Start an empty notebook' }).click();
  await expect.poll(() => rack().count()).toBe(0);
}

async function open(text: string, name = 'wedges.csv'): Promise<void> {
  const buffer = Buffer.from(text);
  await app.page.locator('input#file').setInputFiles({ name, mimeType: 'text/csv', buffer });
}

/** A paste with the cursor in no field. */
async function pasteOnPage(text: string): Promise<void> {
  await app.page.evaluate((pasted) => {
    const data = new DataTransfer();
    data.setData('text/plain', pasted);
    const paste = { clipboardData: data, bubbles: true, composed: true, cancelable: true };
    document.body.dispatchEvent(new ClipboardEvent('paste', paste));
  }, text);
}

/** Densities of a plain strip, step 1 the most exposed. */
const density = (step: number) => 0.15 + 1.6 / (1 + Math.exp((step - 9) / 2.6));
const comma = (value: number) => value.toFixed(2).replace('.', ',');
const file = (rows: readonly (readonly [number, number])[]) =>
  [
    'strip,step,tablet_density,density',
    ...rows.map(([s, d]) => `A,${s},${(0.15 * s).toFixed(2)},${d}`),
  ].join('\n');
const steps = (from: number, to: number) =>
  Array.from({ length: to - from + 1 }, (_, i) => from + i);
const plain = (from = 1, to = 21) =>
  steps(from, to).map((step) => [step, Number(density(step).toFixed(2))] as const);

describe('a table pasted on the page', () => {
  it('begins a strip where there is none, with base + fog, a gap and remarks in their places', async () => {
    const { page } = app;
    await startEmpty();
    const rows = steps(1, 21).map(
      (step) =>
        `${step};${comma(0.05 + 0.15 * (step - 1))};${step === 9 ? '' : comma(density(step))};${step === 4 ? 'smudge?' : ''}`,
    );
    await pasteOnPage(
      ['Strip 12 March, 8 min', 'Stufe;Keil D;Dichte;Bemerkung', ...rows, 'b+f;;0,14;'].join(
        '\r\n',
      ),
    );
    await expect.poll(() => rack().count()).toBe(1);
    await expect.poll(() => cellOf(page, 0, 1).inputValue()).toBe(density(1).toFixed(2));
    expect(await cellOf(page, 8, 1).inputValue()).toBe('');
    expect(await cellOf(page, -1, 1).inputValue()).toBe('0.14');
    expect(await said()).toMatch(
      /Pasted 21 readings.*“Strip 12 March, 8 min”.*Base \+ fog from 1 row/,
    );
    await expect
      .poll(() => textOf(sheet()))
      .toContain('One cell was left without a reading, step 9.');
  });

  it('says so where the clipboard holds nothing', async () => {
    const { page } = app;
    const before = await cellOf(page, 0, 1).inputValue();
    await pasteInto(page, 0, 1, ' \n');
    await expect.poll(said).toContain('Nothing was pasted');
    expect(await cellOf(page, 0, 1).inputValue()).toBe(before);
  });

  it('tells densities that cannot be, beside their cells, and keeps them as pasted', async () => {
    const { page } = app;
    await page.getByRole('button', { name: '+ New strip' }).click();
    await pasteInto(page, 0, 1, '1\t2.1\n2\t21\n3\t-0.6\n4\t-0.01\n5\tO.9');
    await expect.poll(() => cellOf(page, 1, 1).inputValue()).toBe('21');
    const faults = await page.locator('wb-worksheet .fault').allTextContents();
    expect(faults.join(' ')).toMatch(
      /“21” is outside −0.5 to 6.*“-0.6” is outside.*“O.9” is not a number/s,
    );
    expect(await cellOf(page, 3, 1).inputValue()).toBe('−0.01');
    await expect.poll(() => textOf(sheet())).toMatch(/3 entries of this strip cannot be read/);
    await expect.poll(() => textOf(sheet())).toMatch(/Only 2 steps are read.*needs four/);
  });

  it('names the steps that the tablet does not have', async () => {
    const { page } = app;
    await page.getByRole('button', { name: '+ New strip' }).click();
    await pasteInto(
      page,
      0,
      1,
      steps(1, 22)
        .map((s) => `${s}\t${density(s).toFixed(2)}`)
        .join('\n'),
    );
    await expect.poll(() => textOf(sheet())).toContain('Step 22 has readings but no exposure');
  });

  it('asks where commas part columns and decimals alike', async () => {
    const { page } = app;
    await page.getByRole('button', { name: '+ New strip' }).click();
    await pasteInto(page, 0, 1, 'step,density\n1,2,10\n2,1,95\n3,1,80\n4,1,65');
    await page.getByRole('button', { name: 'Take them so' }).click();
    await expect.poll(() => cellOf(page, 3, 1).inputValue()).toBe('1.65');
  });
});

describe('a file of readings', () => {
  it.each([
    ['no rows', 'strip,step,density\n', /no readings below the header.*Add one row/],
    [
      'text in a number',
      'strip,step,tablet_density,density\nA,1,0.1,2.1\nA,2,0.2,two',
      /row 3, column "density": "two" is not a number\. Write/,
    ],
    [
      'a comma for a point',
      'strip,step,tablet_density,density\nA,1,0,1,2,1',
      /row 2.*decimal comma.*write decimal points/,
    ],
    [
      'a density below the limit',
      file([
        [1, 2.1],
        [2, -0.6],
      ]),
      /row 3, column "density": -0\.6 is outside -0\.5 to 6\. Correct/,
    ],
    ['a density above the limit', file([[1, 21]]), /row 2, column "density": 21 is outside/],
    ['binary bytes', '\u0089PNG\r\n\u001a\n\u0000\u0000', /holds binary data, not text\. Save/],
  ])('with %s is refused with place and remedy', async (_, text, says) => {
    const before = await rack().count();
    await open(text);
    const alert = app.page.getByRole('alert');
    await expect.poll(() => textOf(alert)).toMatch(says);
    expect(await textOf(alert)).toContain('nothing was changed');
    expect(await rack().count()).toBe(before);
  });

  it.each([
    ['no header', '1,0.15,2.10\n2,0.30,1.95\n3,0.45,1.80\n4,0.60,1.65'],
    ['no column of densities', 'strip,step,tablet_density\nA,1,0.15\nA,2,0.30'],
  ])('with %s is asked about', async (_, text) => {
    const before = await rack().count();
    await open(text);
    await app.page.getByText('What are these columns?').waitFor();
    await app.page.getByRole('button', { name: 'Take nothing' }).click();
    expect(await rack().count()).toBe(before);
  });

  it.each<[string, string, RegExp]>([
    [
      'in reversed order',
      file(plain().toReversed()),
      /last step to the first; the order was accepted/,
    ],
    [
      'that falls with exposure',
      file(plain().map(([s]) => [s, Number(density(22 - s).toFixed(2))])),
      /Density falls as exposure rises.*Turn the readings round/,
    ],
    [
      'that is solarised',
      file(plain().map(([s, d]) => [s, s < 4 ? d - 0.4 : d])),
      /Density falls with exposure beyond.*solarised/,
    ],
    [
      'slightly negative',
      file(plain().map(([s, d]) => [s, Number((s > 19 ? -0.01 : d).toFixed(2))])),
      /2 densities are slightly below zero.*steps 20, 21.*Zero the densitometer/,
    ],
    [
      'of too few steps',
      file(plain(1, 3)),
      /Only 3 steps are read with a known exposure; a curve needs four/,
    ],
    [
      'listed twice with other steps',
      `${file(plain(1, 11))}\n${file(plain(5, 21)).split('\n').slice(1).join('\n')}`,
      /listed more than once with different steps.*another name/,
    ],
  ])('with a strip %s is taken, with a warning', async (_, text, says) => {
    await startEmpty();
    await open(text);
    await expect.poll(() => rack().count()).toBe(1);
    await expect.poll(warned).toMatch(says);
  });

  it('says that a strip of its name was there, and keeps both', async () => {
    const { page } = app;
    await startEmpty();
    await open(file(plain()));
    await expect.poll(() => rack().count()).toBe(1);
    await open(file(plain(3, 20)));
    await expect.poll(() => rack().count()).toBe(2);
    expect(await textOf(page.locator('main'))).toContain('had a strip “A” with other readings');
    await open(file(plain()));
    await expect.poll(() => rack().count()).toBe(3);
    expect(await textOf(page.locator('main'))).toContain('had a strip “A” with the same readings');
  });

  it('can be dropped on the page, which stays', async () => {
    const { page } = app;
    const before = await rack().count();
    const prevented = await page.evaluate((text) => {
      const data = new DataTransfer();
      data.items.add(new File([text], 'dropped.csv', { type: 'text/csv' }));
      const drop = new DragEvent('drop', { dataTransfer: data, bubbles: true, cancelable: true });
      return !document.body.dispatchEvent(drop);
    }, file(plain()));
    expect(prevented).toBe(true);
    await expect.poll(() => rack().count()).toBe(before + 1);
  });

  it('shows why it was refused though the page stands far below', async () => {
    const { page } = app;
    await page.evaluate(() => {
      scrollTo(0, 6000);
    });
    await open('');
    const alert = page.getByRole('alert');
    await alert.waitFor();
    await expect
      .poll(async () => {
        const box = await alert.boundingBox();
        return box !== null && box.y >= 0 && box.y < 900;
      })
      .toBe(true);
  });
});
