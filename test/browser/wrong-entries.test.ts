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

describe('an entry with units, while what reads units is on its way', () => {
  const READER = '**/quantities-*.js';
  const waits = (field: Locator) => field.locator('#waits');

  /** Holds back what reads units until the function that it returns is called. */
  async function hold(page: Page): Promise<() => void> {
    let release!: () => void;
    const released = new Promise<void>((resolve) => (release = resolve));
    await page.route(READER, async (route) => {
      await released;
      await route.continue();
    });
    return release;
  }

  const planned = (page: Page) =>
    page.evaluate(() => {
      const element = document.querySelector('wb-app') as unknown as {
        readonly app: {
          readonly store: {
            readonly state: { readonly document: { readonly plan: { readonly celsius: number } } };
          };
        };
      };
      return element.app.store.state.document.plan.celsius;
    });

  it('stands as typed, the figure before it in force, and is read when that has come', async () => {
    const { page } = app;
    const release = await hold(page);
    const field = page.locator('wb-treatment #celsius');
    await enter(page, field, '21');
    await input(field).focus();
    await page.keyboard.press('Control+a');
    await page.keyboard.type('68 F');
    // The 6 on the way to 68 F is no entry.
    expect(await planned(page)).toBe(21);
    expect(await input(field).inputValue()).toBe('68 F');
    await page.keyboard.press('Tab');
    await expect
      .poll(() => textOf(waits(field)))
      .toBe('“68 F” waits: what reads units is being fetched. 21 is still in use.');
    expect(await input(field).inputValue()).toBe('68 F');
    expect(await input(field).getAttribute('aria-invalid')).toBe(null);
    expect(await planned(page)).toBe(21);
    release();
    await expect.poll(() => planned(page)).toBe(20);
    await expect.poll(() => input(field).inputValue()).toBe('20');
    expect(await waits(field).count()).toBe(0);
    expect(await textOf(page.locator('wb-app .toast'))).toBe('68 F was read as 20 °C.');
    await page.keyboard.press('Control+z');
    await expect.poll(() => input(field).inputValue()).toBe('21');
    await page.keyboard.press('Control+y');
    await expect.poll(() => input(field).inputValue()).toBe('20');
  });

  it('gives way to the next one, which is then read itself', async () => {
    const { page } = app;
    const release = await hold(page);
    const [celsius, dilution] = ['celsius', 'dilution'].map((id) =>
      page.locator(`wb-treatment #${id}`),
    ) as [Locator, Locator];
    await enter(page, celsius, '21');
    await enter(page, celsius, '68 F');
    await waits(celsius).waitFor();
    await enter(page, celsius, '77 F');
    await enter(page, dilution, '1:9');
    await enter(page, dilution, '1+9');
    await expect.poll(() => textOf(waits(celsius))).toContain('“77 F” waits');
    expect(await planned(page)).toBe(21);
    release();
    await expect.poll(() => input(celsius).inputValue()).toBe('25');
    await expect.poll(() => input(dilution).inputValue()).toBe('9');
    expect(await planned(page)).toBe(25);
    for (const field of [celsius, dilution]) {
      expect(await waits(field).count()).toBe(0);
      expect(await fault(field).count()).toBe(0);
    }
    // A plain number, too, takes the place of what was not read yet.
    await enter(page, celsius, '18');
    await expect.poll(() => planned(page)).toBe(18);
  });

  it('is over when undone, and nothing comes of it later', async () => {
    const { page } = app;
    const release = await hold(page);
    const field = page.locator('wb-treatment #celsius');
    await enter(page, field, '21');
    await enter(page, field, '68 F');
    await waits(field).waitFor();
    await page.keyboard.press('Control+z');
    await expect.poll(() => input(field).inputValue()).toBe('21');
    expect(await waits(field).count()).toBe(0);
    // Another field's entry tells that what reads units has come.
    const minutes = page.locator('wb-treatment #minutes');
    await enter(page, minutes, '8 min 30 s');
    release();
    await expect.poll(() => input(minutes).inputValue()).toBe('8.5');
    expect(await input(field).inputValue()).toBe('21');
    expect(await planned(page)).toBe(21);
  });

  it('says that the reader, not the entry, is at fault, and reads it once there is a network', async () => {
    const { page, close } = await app.open();
    const field = page.locator('wb-treatment #celsius');
    await page.route(READER, (route) => route.abort());
    await enter(page, field, '21');
    await enter(page, field, '77 F');
    await expect
      .poll(() => textOf(fault(field)))
      .toMatch(
        /“77 F” could not be read: what reads units did not arrive\..* 21 is still in use\./,
      );
    expect(await planned(page)).toBe(21);
    // It outlives the page, and Enter asks for it again.
    await expect.poll(() => page.locator('[data-saved]').count()).toBe(1);
    await page.unroute(READER);
    await page.reload();
    await page.locator('wb-sheet svg').first().waitFor();
    await expect.poll(() => input(field).inputValue()).toBe('77 F');
    await input(field).focus();
    await page.keyboard.press('Enter');
    await expect.poll(() => input(field).inputValue()).toBe('25');
    expect(await planned(page)).toBe(25);
    await close();
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
  it('are seen and told again when the same thing is done twice', async () => {
    const { page } = app;
    const toast = page.locator('wb-app .toast');
    const live = page.locator('wb-app [role="status"][aria-live]').first();
    await page.keyboard.press('Control+z');
    await expect.poll(() => textOf(toast)).toBe('There is nothing to undo.');
    // A reader of the screen speaks what is added to the live region: note what that is.
    await live.evaluate((region) => {
      const added: string[] = [];
      Object.assign(globalThis, { added });
      new MutationObserver((records) => {
        for (const { addedNodes } of records) {
          for (const node of addedNodes) {
            if (node instanceof HTMLElement) added.push(node.textContent);
          }
        }
      }).observe(region, { childList: true, subtree: true });
    });
    // Touched, the sentence goes; the same one comes again.
    await page.locator('wb-readings h2').click();
    await expect.poll(() => toast.count()).toBe(0);
    await page.keyboard.press('Control+z');
    await expect.poll(() => textOf(toast)).toBe('There is nothing to undo.');
    await page.keyboard.press('Control+z');
    const added = () =>
      page.evaluate(() => (globalThis as unknown as { readonly added: string[] }).added);
    await expect.poll(added).toEqual(['There is nothing to undo.', 'There is nothing to undo.']);
    expect(await toast.count()).toBe(1);
  });

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
