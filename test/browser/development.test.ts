import type { Page } from 'playwright-core';
import { describe, expect, it } from 'vitest';
import { axeFindings } from './axe-findings.ts';
import { textOf, type Theme } from './chromium.ts';
import { withApp } from './with-app.ts';
import { strayPixels } from './stray-light.ts';

const THEMES: readonly Theme[] = ['light', 'dim', 'darkroom'];

const app = withApp();

/** Goes to the station as a reader does, and waits until the surface is reckoned. */
async function goTo(page: Page): Promise<void> {
  await page.locator('nav a', { hasText: 'Development' }).click();
  await page.locator('wb-development #title').waitFor();
}
const reckoned = (page: Page) =>
  page.locator('wb-development-surface #surface svg').waitFor({ timeout: 30_000 });

const rowOf = (page: Page, development: string) =>
  page.locator(`wb-development-plan tr[data-development="${development}"]`);
/** Minutes that a row of the plan shows. */
async function minutesOf(page: Page, development: string): Promise<number> {
  const [, minutes, seconds] =
    /(\d+):(\d\d) min/.exec(await textOf(rowOf(page, development))) ?? [];
  return Number(minutes) + Number(seconds) / 60;
}

describe('the station of the next development', () => {
  it('is fetched when it is asked for, not before', async () => {
    const { page } = app;
    const loaded: string[] = [];
    page.on('request', (request) => loaded.push(request.url()));
    const fetched = () => loaded.filter((url) => /development-station|surface-worker/.test(url));
    await page.waitForTimeout(300);
    expect(fetched()).toEqual([]);
    await goTo(page);
    await reckoned(page);
    expect(fetched().some((url) => url.includes('surface-worker'))).toBe(true);
  });

  it('plans N-3 to N+3 with times, intervals, exposure indexes, and what is out of reach', async () => {
    const { page } = app;
    await goTo(page);
    const times = [];
    for (const name of ['N-3', 'N-2', 'N-1', 'N', 'N+1', 'N+2']) {
      times.push(await minutesOf(page, name));
    }
    expect(times).toEqual([...times].sort((a, b) => a - b));
    expect(await textOf(rowOf(page, 'N'))).toMatch(/\d+:\d\d – \d+:\d\d min/);
    expect(await textOf(rowOf(page, 'N'))).toMatch(/\d+\/\d\d°/);
    expect(await textOf(rowOf(page, 'N+3'))).toContain('out of reach');
    expect(await textOf(page.locator('wb-development-plan .warnings'))).toMatch(
      /N\+3 asks for a contrast/,
    );
  });

  it('follows temperature, paper and a figure of the user’s own, and undo', async () => {
    const { page } = app;
    await goTo(page);
    const normal = await minutesOf(page, 'N');
    const celsius = page.locator('wb-development-plan #celsius input').first();
    await celsius.fill('24');
    // The built-in factor of 2.5 for 10 degrees; clocks are rounded to five seconds.
    await expect
      .poll(async () => Math.abs((await minutesOf(page, 'N')) - normal * 2.5 ** -0.4))
      .toBeLessThan(10 / 60);
    await page.keyboard.press('Control+z');
    await expect.poll(() => minutesOf(page, 'N')).toBe(normal);
    await page.getByLabel('Contrast of normal development').selectOption('own');
    const target = page.locator('wb-development-plan #target input').first();
    await target.fill('0.6');
    await expect.poll(() => minutesOf(page, 'N')).toBeGreaterThan(normal + 1);
    await target.fill('lots');
    await target.press('Tab');
    expect(await textOf(page.locator('wb-development-plan #target .wrong'))).not.toBe('');
    await page.getByLabel('Contrast by').selectOption('gamma');
    // The figure of another measure gives way to the usual one of gamma.
    await expect.poll(() => target.inputValue()).toBe('0.7');
  });

  it('shows the curve of a time nobody tested, moved by slider and by typed time', async () => {
    const { page } = app;
    await goTo(page);
    await reckoned(page);
    const station = page.locator('wb-development-surface');
    const curve = () =>
      station.locator('#surface [data-name="curve-before"]').first().getAttribute('d');
    const before = await curve();
    await station.getByLabel('Development time, slider').focus();
    await page.keyboard.press('ArrowRight');
    await expect.poll(curve).not.toBe(before);
    const field = station.locator('#chosenMinutes input').first();
    await field.fill('9:30');
    await field.press('Tab');
    await expect.poll(() => field.inputValue()).toBe('9.5');
    expect(await textOf(station.locator('svg').first())).toContain('predicted, 9:30 min');
    expect(await station.locator('table.strips tbody tr').count()).toBe(6);
    expect(await textOf(station.locator('.left-out'))).toMatch(
      /predicted to ± 0\.0\d\d in density/,
    );
    await field.fill('40');
    await expect
      .poll(() => textOf(station.locator('.warnings')))
      .toMatch(/outside the times that were tried/);
  });

  it('has a zone ladder in greys, and a table of the zones of the development chosen', async () => {
    const { page } = app;
    await goTo(page);
    await reckoned(page);
    const zones = page.locator('wb-zones');
    const greys = await zones
      .locator('#ladder [data-name="zone-patch"]')
      .evaluateAll((patches) => patches.slice(0, 11).map((patch) => patch.getAttribute('fill')));
    expect(new Set(greys).size).toBeGreaterThan(8);
    expect([...greys].sort()).toEqual(greys);
    const table = zones.locator('table.zones');
    const normal = await textOf(table);
    await zones.locator('#ladder-of').selectOption({ label: 'N+1' });
    expect(await textOf(table)).not.toBe(normal);
    expect(await table.locator('tbody tr').count()).toBe(11);
  });

  it('says what to test next, and how much that narrows the plan', async () => {
    const { page } = app;
    await goTo(page);
    expect(await textOf(page.locator('wb-development .next'))).toMatch(
      /Develop the next strip for \d+:\d\d min: .* from \d+ s to \d+ s, \d+ % less/,
    );
  });

  it('sets development beside the bath, with the cautions of the bath in full view', async () => {
    const { page } = app;
    await goTo(page);
    await reckoned(page);
    const both = page.locator('wb-development-or-bath');
    const table = await textOf(both.locator('table'));
    expect(table).toMatch(/graininess against N\s*at least ×1\.\d\d\s*×1\.\d\d/);
    expect(table).toMatch(/speed against N\s*[+−]\d\.\d\d stops\s*[+−]\d\.\d\d stops/);
    expect(await both.locator('.cautions li').count()).toBeGreaterThanOrEqual(8);
    await both.getByLabel('Step').selectOption({ label: 'N+2' });
    expect(await textOf(both.locator('table'))).toMatch(
      /not reachable: at most ×1\.\d\d, after \d[\d.]* min at 1\+\d/,
    );
    await both.getByLabel('Step').selectOption({ label: 'N+0.5' });
    expect(await textOf(both.locator('table'))).toMatch(
      /in the bath\s*–\s*\d[\d.]* min at 1\+\d.*It may well take/,
    );
  });

  it('measures contrast between any end points', async () => {
    const { page } = app;
    await goTo(page);
    await page.getByLabel('Contrast by').selectOption('between');
    const heading = page.locator('wb-development table.strips th').nth(3);
    await expect.poll(() => textOf(heading)).toBe('average gradient, net 0.10 to net 0.90');
    await page.locator('#chord-to input').first().fill('0.8');
    await expect.poll(() => textOf(heading)).toBe('average gradient, net 0.10 to net 0.80');
    await page.keyboard.press('Control+z');
    await expect.poll(() => textOf(heading)).toBe('average gradient, net 0.10 to net 0.90');
    expect(await axeFindings(page, '#development')).toEqual([]);
    await page.getByLabel('Contrast by').selectOption('over');
    await expect.poll(() => textOf(heading)).toBe('average gradient, net 0.10 to +1.20');
  });

  it('prints the table for the wall alone', async () => {
    const { page } = app;
    await goTo(page);
    await page.evaluate(() => {
      globalThis.print = () => undefined;
    });
    await page.getByRole('button', { name: 'Print this table' }).click();
    await page.locator('wb-sink-sheet').waitFor({ state: 'attached' });
    await page.emulateMedia({ media: 'print' });
    expect(await page.locator('wb-app').isVisible()).toBe(false);
    const sheet = page.locator('wb-sink-sheet');
    expect(await sheet.isVisible()).toBe(true);
    expect(await textOf(sheet.locator('thead'))).toMatch(/18 °C\s*20 °C\s*22 °C\s*24 °C/);
    expect(await textOf(sheet.locator('p'))).toContain('invented readings');
    await page.evaluate(() => {
      dispatchEvent(new Event('afterprint'));
    });
    await page.emulateMedia({ media: 'screen' });
    expect(await sheet.count()).toBe(0);
    expect(await page.locator('wb-app').isVisible()).toBe(true);
  });
});

describe('control strips', () => {
  it('tell by sentence and mark that the process has drifted', async () => {
    const { page } = app;
    await goTo(page);
    const drift = page.locator('wb-drift');
    expect(await textOf(drift.locator('.signals'))).toMatch(
      /control 9, 2026-10-31: contrast −\d+\.\d sigma, .*beyond three sigma/,
    );
    expect(await textOf(drift.locator('.direction'))).toMatch(/exhausted or weaker developer/);
    expect(await drift.locator('#drift [data-name="drift-signal-contrast"]').count()).toBe(1);
  });

  it('are marked and dated under the facts of a strip', async () => {
    const { page } = app;
    const details = page.locator('wb-strip-details');
    await details.locator('summary').first().click();
    await details.getByLabel('Control strip of the process').check();
    await details.getByLabel('Developed on').fill('2026-11-20');
    await details.getByLabel('Developed on').press('Tab');
    await goTo(page);
    await page.locator('wb-drift #drift').getByText('The same figures as a table').click();
    const rows = page.locator('wb-drift #drift tbody tr');
    expect(await rows.count()).toBe(10);
    expect(await textOf(rows.last())).toContain('2026-11-20');
  });
});

describe('an empty notebook', () => {
  it('says what is missing and what to do next', async () => {
    const { page } = app;
    await page.getByRole('button', { name: 'Start an empty notebook' }).click();
    await goTo(page);
    const station = page.locator('wb-development');
    expect(await textOf(station.locator('.says').first())).toBe(
      'no strip with a development time yet',
    );
    expect(await textOf(station.locator('.empty'))).toMatch(/Expose three wedges alike/);
    expect(await textOf(page.locator('wb-drift .none'))).toMatch(
      /No control strip of this film yet/,
    );
  });
});

describe('the station in every theme and size', () => {
  it.each(THEMES)(
    'has nothing wrong by the rules of axe-core, %s',
    async (theme) => {
      const { page, close, faults } = await app.open({ theme });
      await goTo(page);
      await reckoned(page);
      await page.locator('wb-development details').evaluateAll((folded) => {
        for (const details of folded) (details as HTMLDetailsElement).open = true;
      });
      expect(await axeFindings(page, '#development')).toEqual([]);
      expect(faults).toEqual([]);
      await close();
    },
    180_000,
  );

  it('shows no grey under red light: bars and numbers instead of patches', async () => {
    const { page, close } = await app.open({ theme: 'darkroom' });
    await goTo(page);
    await reckoned(page);
    const zones = page.locator('wb-zones');
    expect(await zones.locator('[data-name="zone-patch"]').count()).toBe(0);
    expect(await zones.locator('[data-name="zone-bar"]').count()).toBeGreaterThan(60);
    expect(await textOf(zones.locator('.red'))).toMatch(/no patch can be grey/);
    const box = await page.locator('wb-development').boundingBox();
    for (let y = box!.y; y < box!.y + box!.height; y += 800) {
      await page.evaluate((at) => {
        scrollBy(0, at);
      }, 800);
      expect(await strayPixels(page)).toBe(0);
    }
    await close();
  });

  it.each([360, 1024, 1920])('needs no sideways scrolling at %d pixels', async (width) => {
    const { page, close } = await app.open({ width });
    await goTo(page);
    await reckoned(page);
    expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(
      width,
    );
    await close();
  });
});
