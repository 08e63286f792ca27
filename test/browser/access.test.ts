import { describe, expect, it } from 'vitest';
import { axeFindings } from './axe-findings.ts';
import { type Theme } from './chromium.ts';
import { withBrowser } from './with-app.ts';
import { strayPixels } from './stray-light.ts';

const THEMES: readonly Theme[] = ['light', 'dim', 'darkroom'];

const { open } = withBrowser();

describe('accessibility, by the rules of WCAG 2.2 A and AA as axe-core checks them', () => {
  it.each(THEMES)('finds nothing wrong in the %s theme', async (theme) => {
    const { page, close, faults } = await open({ theme });
    for (const summary of await page.locator('details:not([open]) > summary').all()) {
      if (await summary.isVisible()) await summary.click();
    }
    expect(await axeFindings(page)).toEqual([]);
    expect(faults).toEqual([]);
    await close();
  });
});

describe('contrast of the drawings', () => {
  // WCAG 2.2, success criteria 1.4.3 and 1.4.11 (published, W3C): text 4.5:1, marks 3:1.
  it.each(THEMES)('holds for every text and every mark that carries meaning, %s', async (theme) => {
    const { page, close } = await open({ theme });
    const pairs = await page.evaluate(() => {
      const charts = [...document.querySelector('wb-app')!.shadowRoot!.querySelectorAll('*')]
        .flatMap((host) => [...(host.shadowRoot?.querySelectorAll('wb-chart') ?? [])])
        .flatMap((chart) => [...(chart.shadowRoot?.querySelectorAll('svg') ?? [])]);
      return charts.flatMap((svg) => {
        const ground = getComputedStyle(svg).backgroundColor;
        return [...svg.querySelectorAll('text, path')].map((mark) => {
          const style = getComputedStyle(mark);
          const isText = mark.localName === 'text';
          const ink = isText || style.stroke === 'none' ? style.fill : style.stroke;
          return { isText, ink, ground, classes: mark.getAttribute('class') ?? '' };
        });
      });
    });
    expect(pairs.length).toBeGreaterThan(60);
    for (const { isText, ink, ground, classes } of pairs) {
      if (/s-rule|f-ground/.test(classes)) continue; // grid lines, and shapes in the ground colour
      expect(contrast(ink, ground), `${ink} on ${ground} (${classes})`).toBeGreaterThanOrEqual(
        isText ? 4.5 : 3,
      );
    }
    await close();
  });

  it('red on black shows no other light: no pixel has green or blue in it', async () => {
    const { page, close } = await open({ theme: 'darkroom' });
    // Stations further down are fetched, and grow, as they come near.
    const end = () => page.evaluate(() => document.documentElement.scrollHeight);
    const { height } = page.viewportSize()!;
    for (let at = 0; at < (await end()); at += height) {
      await page.evaluate((y) => {
        scrollTo(0, y);
      }, at);
      await page.waitForLoadState('networkidle');
      expect(await strayPixels(page), `at ${at}`).toBe(0);
    }
    await close();
  });
});

describe('on paper', () => {
  it('is black on white whatever the screen shows', async () => {
    const { page, close } = await open({ theme: 'darkroom' });
    await page.emulateMedia({ media: 'print' });
    const shown = await page.evaluate(() => {
      const style = getComputedStyle(document.body);
      return { ground: style.backgroundColor, ink: style.color };
    });
    expect(shown.ground).toBe('rgb(255, 255, 255)');
    expect(contrast(shown.ground, shown.ink)).toBeGreaterThan(15);
    await close();
  });
});

describe('size', () => {
  it.each([360, 600, 768, 1024, 1920])(
    'needs no sideways scrolling at %d pixels',
    async (width) => {
      const { page, close } = await open({ width });
      expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(
        width,
      );
      await close();
    },
  );

  it('has targets of at least 24 pixels (WCAG 2.2, 2.5.8) at 360 pixels', async () => {
    const { page, close } = await open({ width: 360 });
    const small: string[] = [];
    for (const control of await page.locator('button, select, input, summary, nav a').all()) {
      const box = await control.boundingBox();
      if (box === null) continue;
      if (box.width < 24 || box.height < 24) {
        small.push(await control.evaluate((element) => element.outerHTML.slice(0, 80)));
      }
    }
    expect(small).toEqual([]);
    await close();
  });
});

/** Contrast ratio of two computed colours, WCAG 2.2. */
function contrast(a: string, b: string): number {
  const luminance = (colour: string) => {
    const [red = 0, green = 0, blue = 0] = (colour.match(/\d+(\.\d+)?/g) ?? []).map((value) => {
      const c = Number(value) / 255;
      return c <= 0.04045 ? c / 12.92 : ((c + 0.055) / 1.055) ** 2.4;
    });
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue;
  };
  const [high = 0, low = 0] = [luminance(a), luminance(b)].sort((x, y) => y - x);
  return (high + 0.05) / (low + 0.05);
}
