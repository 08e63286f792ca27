import { describe, expect, it } from 'vitest';
import { withApp } from './with-app.ts';

const app = withApp();

describe('a jump by the list of stations', () => {
  it.each(['printing', 'picture'])(
    'lands on %s and stays there while stations above it come',
    async (name) => {
      const { page } = app;
      await page.setViewportSize({ width: 1280, height: 900 });
      await page.evaluate(() => {
        scrollTo(0, 0);
      });
      await page.locator(`nav a[href="#${name}"]`).click();
      const heading = page.locator(`#${name} h2`).first();
      await heading.waitFor();
      const top = () => heading.evaluate((each) => Math.round(each.getBoundingClientRect().top));
      // Whatever stands near has been fetched and laid out by then.
      await expect
        .poll(() => page.locator('wb-printing h2').count(), { timeout: 10_000 })
        .toBeGreaterThan(0);
      await page.waitForTimeout(1500);
      // Below the bar of the page, within the first quarter of the window.
      expect(await top()).toBeGreaterThanOrEqual(0);
      expect(await top()).toBeLessThan(225);
    },
  );

  it('lets go when the reader scrolls', async () => {
    const { page } = app;
    await page.locator('nav a[href="#picture"]').click();
    await page.locator('#picture h2').first().waitFor();
    await page.waitForTimeout(500);
    await page.mouse.move(640, 450);
    await page.mouse.wheel(0, 600);
    await expect
      .poll(() =>
        page
          .locator('#picture h2')
          .first()
          .evaluate((each) => each.getBoundingClientRect().top),
      )
      .toBeLessThan(-100);
  });
});

describe('the Callier factor', () => {
  it('is measured by times for one grey, and taken into the notebook', async () => {
    const { page } = app;
    await page.locator('nav a[href="#match"]').click();
    await page.getByText('Measure the factor of your own enlarger').click();
    // [ISO5] by definition of the factor: log10 t grows by Q d; here Q = 1.25 from 10 s at 0.20.
    for (const [index, [density, seconds]] of [
      ['0.20', '10'],
      ['0.80', '56.2'],
      ['1.20', '177.8'],
    ].entries()) {
      await page.getByLabel(`Density of patch ${index + 1}`).fill(density!);
      await page.getByLabel(`Time of patch ${index + 1}`).fill(seconds!);
    }
    const result = page.locator('wb-callier #measured');
    await expect.poll(() => result.innerText()).toMatch(/Callier factor Q 1\.25/);
    await page.locator('wb-callier #use').click();
    await expect
      .poll(() => page.getByLabel('Callier factor Q').first().inputValue())
      .toMatch(/^1\.25/);
    await page.getByText('with Q 1.25').first().waitFor();
  });
});
