/**
 * Things typed wrong into the number fields of every station: each is understood as it was meant,
 * or refused in words beside the field, the old figure in force; and nothing else happens.
 */
import type { Locator, Page } from 'playwright-core';
import { describe, expect, it } from 'vitest';
import { textOf } from './chromium.ts';
import { withApp } from './with-app.ts';

const app = withApp();

const input = (field: Locator) => field.locator('#field');
const fault = (field: Locator) => field.locator('#fault');

async function enter(page: Page, field: Locator, typed: string): Promise<void> {
  await input(field).focus();
  await page.keyboard.press('Control+a');
  await page.keyboard.press('Delete');
  await page.keyboard.type(typed);
  await page.keyboard.press('Tab');
}

describe('a number field', () => {
  it.each([
    ['dilution', '1+9', '9'],
    ['dilution', 'stock', '0'],
    ['dilution', '7,5', '7.5'],
    ['minutes', '8 min 30 s', '8.5'],
    ['minutes', '6:30', '6.5'],
    ['celsius', '68 °F', '20'],
    ['celsius', '20,5', '20.5'],
  ])('takes in %s what was meant by %s', async (id, typed, shown) => {
    const { page } = app;
    const field = page.locator(`wb-treatment #${id}`);
    await enter(page, field, typed === shown ? '1' : typed);
    await expect.poll(() => input(field).inputValue()).toBe(shown);
    expect(await fault(field).count()).toBe(0);
  });

  it.each([
    ['dilution', '1:9', /“1:9” cannot be read here\. .*“1:3” may mean.* 1\+3 is still in use\./],
    ['minutes', '1e9', /“1e9” cannot be used here: it must be from 0 to 1000 min\. 6\.5 is still/],
    ['minutes', '-1', /“-1” cannot be used here: it must be from 0 to 1000 min\./],
    ['minutes', '68 °F', /“68 °F” cannot be read here\. Type minutes, or a time such as 6:30/],
    ['minutes', '', /A number is needed here\. 6\.5 is still in use\./],
    ['celsius', '500 °F', /“500 °F” cannot be used here: it must be from 0 to 60 °C\. 20 is still/],
    ['celsius', 'letters', /“letters” cannot be read here\. Type degrees Celsius/],
  ])(
    'says in %s what is wrong with “%s”, and which figure is in force',
    async (id, typed, says) => {
      const { page } = app;
      for (const [name, usual] of [
        ['dilution', '3'],
        ['minutes', '6.5'],
        ['celsius', '20'],
      ] as const) {
        await enter(page, page.locator(`wb-treatment #${name}`), usual);
      }
      const verdict = await textOf(page.locator('wb-sheet .verdict'));
      const field = page.locator(`wb-treatment #${id}`);
      await enter(page, field, typed);
      await expect.poll(() => textOf(fault(field))).toMatch(says);
      expect(await input(field).inputValue()).toBe(typed);
      expect(await input(field).getAttribute('aria-invalid')).toBe('true');
      expect(await textOf(page.locator('wb-sheet .verdict'))).toBe(verdict);
      // The next entry, typed over it, is taken.
      await enter(page, field, '7');
      await expect.poll(() => fault(field).count()).toBe(0);
      expect(await input(field).inputValue()).toBe('7');
    },
  );

  it('lets a wrong entry be corrected letter by letter', async () => {
    const { page } = app;
    const field = page.locator('wb-treatment #minutes');
    await enter(page, field, '8 mib');
    await fault(field).waitFor();
    await input(field).focus();
    await page.keyboard.press('End');
    await page.keyboard.press('Backspace');
    expect(await input(field).inputValue()).toBe('8 mi');
    await page.keyboard.type('n');
    await page.keyboard.press('Tab');
    await expect.poll(() => input(field).inputValue()).toBe('8');
    expect(await fault(field).count()).toBe(0);
  });

  it('brings back with undo what stood there before a wrong entry', async () => {
    const { page } = app;
    const field = page.locator('wb-treatment #celsius');
    await enter(page, field, '21');
    await enter(page, field, '95');
    await fault(field).waitFor();
    await page.keyboard.press('Control+z');
    await expect.poll(() => fault(field).count()).toBe(0);
    expect(await input(field).inputValue()).toBe('21');
    await page.keyboard.press('Control+y');
    await expect.poll(() => input(field).inputValue()).toBe('95');
    expect(await textOf(fault(field))).toContain('21 is still in use');
  });

  it('keeps a wrong entry with its own negative', async () => {
    const { page } = app;
    const field = page.locator('wb-negative wb-number[label="Its base + fog"]');
    await enter(page, field, 'thin');
    await fault(field).waitFor();
    const first = await page.getByLabel('Negative', { exact: true }).inputValue();
    await page.getByRole('button', { name: '+ New negative' }).click();
    await expect.poll(() => input(field).inputValue()).toBe('');
    await page.getByLabel('Negative', { exact: true }).selectOption(first);
    await expect.poll(() => input(field).inputValue()).toBe('thin');
  });
});

describe('undo, redo and a reload', () => {
  it('return every figure through wrong entries and right ones', async () => {
    const { page } = app;
    const notebook = () =>
      page.evaluate(() => {
        const element = document.querySelector('wb-app') as unknown as {
          readonly app: { readonly store: { readonly state: { readonly document: unknown } } };
        };
        return JSON.stringify(element.app.store.state.document);
      });
    const undo = page.getByRole('button', { name: 'Undo', exact: true });
    const before = await notebook();
    const baths = page.locator('wb-baths');
    const minutes = page.locator('wb-treatment #minutes');
    await enter(page, minutes, '8 min 30 s');
    // What reads units is fetched when it is first needed: until then the entry waits.
    await expect.poll(() => input(minutes).inputValue()).toBe('8.5');
    for (const [field, typed] of [
      [minutes, '1e9'],
      [page.locator('wb-treatment #dilution'), '1:9'],
      [page.locator('wb-treatment #dilution'), '1+9'],
      [page.locator('wb-treatment #celsius'), 'abc'],
      [baths.locator('wb-number[data-field=volumeMillilitres]').first(), '2 l'],
      [baths.locator('wb-number[data-field=seleniumGramsPerLitre]').first(), 'letters'],
    ] as const) {
      await enter(page, field, typed);
    }
    await expect.poll(notebook).toContain('letters');
    await expect.poll(notebook).toContain('"volumeMillilitres":2000');
    const after = await notebook();
    expect(JSON.parse(after)).toMatchObject({
      plan: { minutes: 8.5, partsWater: 9, celsius: 20 },
      baths: [{ volumeMillilitres: 2000, seleniumGramsPerLitre: 40 }],
    });
    let steps = 0;
    for (; await undo.isEnabled(); steps += 1) await page.keyboard.press('Control+z');
    expect(await notebook()).toBe(before);
    for (let step = 0; step < steps; step += 1) await page.keyboard.press('Control+y');
    expect(await notebook()).toBe(after);
    await page.reload();
    await page.locator('wb-sheet svg').first().waitFor();
    expect(await notebook()).toBe(after);
  });
});

describe('announcements', () => {
  it('are seen again after the first one has gone', async () => {
    const { page } = app;
    const toast = page.locator('wb-app .toast');
    const seen = () => toast.evaluate((element) => getComputedStyle(element).visibility);
    await page.getByRole('button', { name: 'Start an empty notebook' }).click();
    await expect.poll(() => textOf(toast)).toContain('An empty notebook');
    expect(await seen()).toBe('visible');
    await expect.poll(seen, { timeout: 12_000 }).toBe('hidden');
    await page.keyboard.press('Control+z');
    await expect.poll(() => textOf(toast)).toBe('Undone.');
    expect(await seen()).toBe('visible');
    // It may lie over a field: a touch is enough to be rid of it.
    await page.locator('wb-readings h2').click();
    await expect.poll(() => toast.count()).toBe(0);
  }, 30_000);
});
