/** How the stations use the page, from a phone to a wide screen. */
import type { Page } from 'playwright-core';
import { describe, expect, it } from 'vitest';
import { pasteInto, textOf } from './chromium.ts';
import { withBrowser } from './with-app.ts';

const { open } = withBrowser();

/** Left and right edges of the two halves of each pair of a station, and of the station. */
function edgesOf(page: Page, station: string) {
  return page.locator(station).evaluate((host) => {
    const roots: ParentNode[] = [host.shadowRoot!];
    for (const each of host.shadowRoot!.querySelectorAll('*')) {
      if (each.shadowRoot !== null) roots.push(each.shadowRoot);
    }
    const { left, right } = host.getBoundingClientRect();
    const pairs = roots.flatMap((root) =>
      [...root.querySelectorAll('.halves')].map((pair) =>
        [...pair.children].map((half) => {
          const box = half.getBoundingClientRect();
          return { left: box.left, right: box.right, top: box.top };
        }),
      ),
    );
    return { left, right, pairs };
  });
}

describe('the width of the page', () => {
  it.each([
    { width: 1920, beside: true },
    { width: 1024, beside: false },
    { width: 360, beside: false },
  ])('development has drawing and figures side by side: $beside at $width', async (given) => {
    const { page, faults, close } = await open({ width: given.width });
    await page.locator('nav a', { hasText: 'Development' }).click();
    await page.locator('wb-development-surface #surface svg').waitFor({ timeout: 30_000 });
    const { left, right, pairs } = await edgesOf(page, 'wb-development');
    // The law, the plan, the curve at any time, the zones, the bath and the control strips.
    expect(pairs).toHaveLength(6);
    for (const [first, second] of pairs) {
      expect(Math.abs(first!.left - left)).toBeLessThan(1.5);
      if (!given.beside) {
        expect(second!.top).toBeGreaterThan(first!.top);
        expect(Math.abs(second!.left - left)).toBeLessThan(1.5);
        continue;
      }
      // A drawing keeps a margin that a table does without.
      expect(Math.abs(second!.top - first!.top)).toBeLessThan(24);
      expect(second!.left).toBeGreaterThan(first!.right);
      expect(Math.abs(second!.right - right)).toBeLessThan(1.5);
    }
    expect(faults).toEqual([]);
    await close();
  });

  it('print leaves no hole: both columns of a pair end near each other', async () => {
    const { page, faults, close } = await open({ width: 1920 });
    await page.locator('nav a', { hasText: 'Print' }).click();
    await page.locator('wb-wall .parts').waitFor();
    const ends = await page
      .locator('wb-wall .parts > div')
      .evaluateAll((columns) =>
        columns.map((column) => column.lastElementChild!.getBoundingClientRect().bottom),
      );
    expect(ends).toHaveLength(2);
    // Of the demo; a window is 900 pixels high.
    expect(Math.abs(ends[0]! - ends[1]!)).toBeLessThan(150);
    expect(faults).toEqual([]);
    await close();
  });
});

describe('the families of curves', () => {
  it('are compared as soon as the choosing of curves is there, without a change', async () => {
    const { page, faults, close } = await open({ width: 1024 });
    await page.locator('nav a', { hasText: 'Curve' }).click();
    const scatter = page.locator('wb-curve tbody tr').first().locator('.number').first();
    await expect.poll(() => textOf(scatter), { timeout: 10_000 }).toMatch(/^0\.00\d/);
    expect(faults).toEqual([]);
    await close();
  });
});

describe('the links to the stations', () => {
  const boxOf = (page: Page, selector: string) =>
    page
      .locator(selector)
      .first()
      .evaluate((each) => {
        const { top, bottom } = each.getBoundingClientRect();
        return { top, bottom };
      });

  it.each([
    { width: 1280, height: 800 },
    { width: 700, height: 800 },
  ])(
    'stay at the top of a window of $width by $height pixels, on one line and over nothing',
    async (size) => {
      const { page, faults, close } = await open(size);
      await page.locator('nav a', { hasText: 'Match' }).click();
      await expect.poll(async () => (await boxOf(page, '#match h2')).top).toBeLessThan(200);
      const bar = await boxOf(page, 'nav');
      expect(bar.top).toBe(0);
      expect(bar.bottom).toBeLessThan(50);
      expect((await boxOf(page, '#match h2')).top).toBeGreaterThan(bar.bottom);
      if (size.width > 1000) {
        const beside = await boxOf(page, 'wb-sheet figure');
        expect(beside.top).toBeGreaterThan(bar.bottom);
        expect(beside.bottom).toBeLessThanOrEqual(size.height);
      }
      // Backwards through the page: what has the focus stands below the bar.
      await page.locator('wb-treatment input').first().focus();
      for (let step = 0; step < 40; step++) {
        await page.keyboard.press('Shift+Tab');
        const top = await page.evaluate(() => {
          let each = document.activeElement;
          while (each?.shadowRoot?.activeElement) each = each.shadowRoot.activeElement;
          return each?.getBoundingClientRect().top ?? -1;
        });
        expect(top, `step ${step}`).toBeGreaterThanOrEqual(bar.bottom);
      }
      expect(faults).toEqual([]);
      await close();
    },
  );

  it.each([
    { width: 360, height: 800 },
    { width: 1280, height: 560 },
  ])('go with the page where a window of $width by $height has no room', async (size) => {
    const { page, faults, close } = await open(size);
    await page.locator('nav a', { hasText: 'Match' }).click();
    await expect.poll(async () => (await boxOf(page, 'nav')).bottom).toBeLessThan(0);
    expect(faults).toEqual([]);
    await close();
  });
});

describe('the question about five columns', () => {
  const table = [
    'patch\tfog\tglass D\tVIS\tred',
    ...[0.05, 0.2, 0.35].map((d, i) => `${i + 1}\t0.10\t${d}\t${d + 0.1}\t${d + 0.2}`),
  ].join('\n');

  it.each([360, 1024, 1280])(
    'shows them all without a move sideways at %i pixels',
    async (width) => {
      const { page, faults, close } = await open({ width });
      await pasteInto(page, 0, 1, table);
      const dialog = page.locator('wb-column-match dialog');
      await dialog.waitFor();
      for (const part of [dialog, dialog.locator('.scroll')]) {
        const hidden = await part.evaluate((each) => each.scrollWidth - each.clientWidth);
        expect(hidden).toBeLessThanOrEqual(0);
      }
      const lists = await dialog.locator('select').evaluateAll((selects) =>
        selects.map((select) => {
          const { left, right, top } = select.getBoundingClientRect();
          return { left, right, top };
        }),
      );
      expect(lists).toHaveLength(5);
      for (const { left, right } of lists) {
        expect(left).toBeGreaterThan(0);
        expect(right).toBeLessThan(width);
        expect(right - left).toBeGreaterThan(100);
      }
      // Side by side, their rows in step; on a phone one under another.
      expect(new Set(lists.map(({ top }) => Math.round(top))).size).toBe(width < 640 ? 5 : 1);
      expect(faults).toEqual([]);
      await close();
    },
  );
});
