import type { Locator } from 'playwright-core';
import { describe, expect, it } from 'vitest';
import {} from './chromium.ts';
import { withApp } from './with-app.ts';

const app = withApp();

/** What is written there; a station far from the window is not laid out, so its text is read. */
async function shown(place: Locator): Promise<string> {
  return (await place.allTextContents()).join(' ').replaceAll(/\s+/g, ' ');
}

const startEmpty = () => app.page.getByRole('button', { name: 'Start an empty notebook' }).click();

describe('how sure a plan is', () => {
  it('gives the minutes with their error and interval, and the scrap that would tell most', async () => {
    const { page } = app;
    const station = page.locator('wb-treatment');
    expect(await shown(station.locator('.sureness'))).toMatch(
      /Standard error of the time: \d+\.\d\d min\. It may well take between .* min and .* min\./,
    );
    expect(await shown(station.locator('.next-trial'))).toMatch(/Tone one more scrap at 1\+/);
    await startEmpty();
    expect(await shown(station.locator('.next-trial'))).toMatch(
      /would fall from .* less|hardly narrow the gain/,
    );
  });
});

describe('ways out', () => {
  const order = () =>
    app.page
      .locator('wb-ways [data-way]')
      .evaluateAll((rows) => rows.map((row) => row.getAttribute('data-way')));
  const column = async (name: string) => {
    const cells = app.page.locator(`wb-ways td[data-name="${name}"]`);
    return (await cells.allInnerTexts()).map((text) => Number(text.split(' ')[0]));
  };

  it('stand side by side and follow the wish of the user', async () => {
    const { page } = app;
    const first = await order();
    expect(first).toEqual([
      'print-to-fit',
      'split-exposure',
      'selenium-and-paper',
      'selenium',
      'chromium-partial',
      'chromium',
      'chromium-twice',
      'chromium-then-selenium',
      'next-roll',
    ]);
    await page.locator('wb-ways').getByLabel('Order by').selectOption('shadow-separation');
    expect(await order()).not.toEqual(first);
    const shadows = await column('shadow separation');
    expect(shadows).toEqual([...shadows].sort((a, b) => b - a));
  });

  it('carry the cautions of chromium in full view, with their sources', async () => {
    const cautions = app.page.locator('wb-ways .cautions');
    expect(await cautions.isVisible()).toBe(true);
    const said = await shown(cautions);
    expect(said).toMatch(/carcinogen/);
    expect(said).toMatch(/5 µg\/m³/);
    expect(said).toMatch(/verified · published: US EPA 40 CFR 261\.24/);
  });

  it('turn to reducers for a negative that is too hard, and say nothing without one', async () => {
    const { page } = app;
    await page.locator('wb-treatment').getByLabel('Grade to reach').selectOption('5');
    await expect.poll(order).toContain('reduce-proportional');
    expect(await shown(page.locator('wb-ways .cautions'))).toMatch(/dissolves silver for good/);
    await startEmpty();
    await expect.poll(order).toEqual([]);
  });

  it('part tones at the densities that are asked for', async () => {
    const before = await column('highlight separation');
    await app.page.locator('wb-ways #ways-highlight input').first().fill('0.8');
    await expect.poll(() => column('highlight separation')).not.toEqual(before);
  });
});

describe('trial pieces', () => {
  it('give a gain with its error in an empty notebook, and undo takes them back', async () => {
    const { page } = app;
    await startEmpty();
    const trials = page.locator('wb-trials');
    await trials.locator('#add-trial').click();
    for (const [label, value] of [
      ['spot A, before', '0.47'],
      ['spot B, before', '1.12'],
      ['base + fog, before', '0.12'],
      ['spot A, after', '0.52'],
      ['spot B, after', '1.27'],
      ['base + fog, after', '0.12'],
    ] as const) {
      await trials.getByLabel(label, { exact: true }).fill(value);
    }
    // Nets 0.35 and 1.00 became 0.40 and 1.15.
    await expect.poll(() => trials.locator('.gain').innerText()).toMatch(/×1\.15\d ± 0\.0[1-4]/);
    expect(await page.locator('wb-treatment .says').first().innerText()).toMatch(/fitted to 1/);
    await trials.getByRole('button', { name: 'Remove trial 1' }).click();
    expect(await trials.locator('fieldset').count()).toBe(0);
    await page.keyboard.press('Control+z');
    await expect.poll(() => trials.locator('.gain').innerText()).toMatch(/×1\.15/);
  });
});

describe('the bath log', () => {
  it('reckons what is left, keeps it, and undoes step by step', async () => {
    const { page } = app;
    const log = page.locator('wb-baths');
    expect(await shown(log.locator('[data-bath] summary'))).toMatch(/Tray of the test wedges/);
    await startEmpty();
    await log.locator('#add-bath').click();
    const capacity = log.locator('.capacity');
    expect(await capacity.innerText()).toMatch(/Nothing has been toned .* cannot be told without/);
    await log.locator('[data-field="seleniumGramsPerLitre"] input').first().fill('40');
    await expect
      .poll(() => capacity.innerText())
      .toMatch(/Nothing has been toned in this bath yet: all of its 20\.0 g of selenium is there/);
    await log.getByLabel('Add to this bath').selectOption('sheet 8 × 10 in');
    await log.getByLabel('mean net density').fill('1');
    // 20 g in a litre at 1+1; 516 cm² at density 1 bind 0.0516 × 1.3 × 0.366 = 0.025 g.
    await expect.poll(() => log.locator('.capacity').innerText()).toMatch(/0\.025 g of selenium/);
    expect(await log.locator('.capacity').innerText()).toMatch(/of 20\.0 g: 99\.9 % is left/);
    const saved = page.locator('[data-saved]').first();
    const stamp = await saved.getAttribute('data-saved');
    await log.getByLabel('mean net density').fill('0.9');
    await expect.poll(() => saved.getAttribute('data-saved')).not.toBe(stamp);
    await page.reload();
    await expect.poll(() => log.locator('[data-film]').count()).toBe(1);
    expect(await log.getByLabel('mean net density').inputValue()).toBe('0.9');
    await log.getByRole('button', { name: 'Remove bath 1' }).click();
    expect(await log.locator('[data-bath]').count()).toBe(0);
    await page.keyboard.press('Control+z');
    await expect.poll(() => log.locator('[data-film]').count()).toBe(1);
  });
});

describe('the steps', () => {
  it('stand before, in and after the bath, each with its caution', async () => {
    const steps = app.page.locator('wb-treatment .steps');
    expect(await steps.count()).toBe(3);
    const said = await shown(steps);
    expect(said).toMatch(/Never let acid into a selenium bath/);
    expect(said).toMatch(/Do not pour a selenium bath down the drain/);
    expect(await steps.locator('.caution').count()).toBeGreaterThanOrEqual(5);
  });
});

describe('the timer', () => {
  it('counts by the time of day, lays its sounds out ahead, and ends aloud', async () => {
    const { page } = app;
    await page.clock.install();
    await page.evaluate(() => {
      const laid: number[] = [];
      Object.assign(globalThis, { laid });
      const tones: { start: (this: OscillatorNode, when?: number) => void } =
        OscillatorNode.prototype;
      const { start } = tones;
      tones.start = function (this: OscillatorNode, when?: number) {
        laid.push((when ?? 0) - this.context.currentTime);
        start.call(this, when);
      };
    });
    await page.locator('wb-treatment #minutes input').first().fill('2');
    const timer = page.locator('wb-timer');
    await expect.poll(() => timer.locator('.clock').innerText()).toBe('2:00');
    await timer.locator('#start').click();
    const laid = await page.evaluate(() => (globalThis as unknown as { laid: number[] }).laid);
    // Every half minute, two strokes at 1:45, five at the end: all known to the audio clock now.
    expect(laid.map((at) => Math.round(at))).toEqual(
      expect.arrayContaining([30, 60, 90, 105, 120]),
    );
    expect(laid).toHaveLength(3 + 2 + 5);
    await page.clock.runFor(31_000);
    await expect.poll(() => timer.locator('.clock').innerText()).toMatch(/^1:2[89]$/);
    expect(await timer.locator('.now').innerText()).toBe('Agitate now.');
    expect(await page.title()).toMatch(/^1:2[89] · /);
    // As a tab in the background: the clock leaps and is looked at once.
    await page.clock.fastForward(200_000);
    await expect.poll(() => timer.locator('.clock').innerText()).toBe('0:00');
    expect(await timer.locator('.now').innerText()).toMatch(/^Done/);
    await timer.locator('#reset').click();
    expect(await timer.locator('.clock').innerText()).toBe('2:00');
    expect(await page.title()).not.toMatch(/·.*·|0:00/);
  });

  it('is red on black under red light, and catches up when the tab is seen again', async () => {
    const opened = await app.open({ theme: 'darkroom' });
    const { page } = opened;
    await page.clock.install();
    const timer = page.locator('wb-timer');
    const clock = timer.locator('.clock');
    await clock.scrollIntoViewIfNeeded();
    const colours = await clock.evaluate((figures) => {
      const grounds: string[] = [];
      let at: Element | null = figures;
      while (at !== null) {
        grounds.push(getComputedStyle(at).backgroundColor);
        const root: Node = at.getRootNode();
        at = at.parentElement ?? (root instanceof ShadowRoot ? root.host : null);
      }
      const ground = grounds.find((one) => !/^rgba.*, 0\)$/.test(one));
      return { ink: getComputedStyle(figures).color, ground: ground ?? 'none' };
    });
    const channels = (colour: string) => (colour.match(/\d+/g) ?? []).slice(0, 3).map(Number);
    // No light but red leaves the screen.
    expect(channels(colours.ground)).toEqual([0, 0, 0]);
    expect(channels(colours.ink).slice(1)).toEqual([0, 0]);
    expect(channels(colours.ink)[0]).toBeGreaterThanOrEqual(0xea);
    await timer.locator('#start').click();
    const see = (state: string) =>
      page.evaluate((now) => {
        Object.defineProperty(document, 'visibilityState', { value: now, configurable: true });
        document.dispatchEvent(new Event('visibilitychange'));
      }, state);
    await see('hidden');
    await page.clock.setSystemTime(Date.now() + 3_600_000);
    await see('visible');
    await expect.poll(() => clock.innerText()).toBe('0:00');
    // What is to be done is said in words, not by a colour.
    expect(await timer.locator('.now').innerText()).toMatch(/^Done/);
    expect(opened.faults).toEqual([]);
    await opened.close();
  });

  it('waits where it is paused', async () => {
    const { page } = app;
    await page.clock.install();
    const timer = page.locator('wb-timer');
    await timer.locator('#start').click();
    await page.clock.runFor(10_000);
    await timer.locator('#pause').click();
    const stopped = await timer.locator('.clock').innerText();
    await page.clock.fastForward(60_000);
    expect(await timer.locator('.clock').innerText()).toBe(stopped);
    await timer.locator('#start').click();
    await page.clock.runFor(5_000);
    await expect.poll(() => timer.locator('.clock').innerText()).not.toBe(stopped);
  });
});
