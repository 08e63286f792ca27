/** How the stations use the page, from a phone to a wide screen. */
import type { Page } from 'playwright-core';
import { describe, expect, it } from 'vitest';
import { textOf } from './chromium.ts';
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
