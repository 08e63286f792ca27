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

  it.each(['treatment', 'printing'])('takes the keyboard along to %s', async (name) => {
    const { page } = app;
    const focused = () =>
      page.evaluate(() => {
        const path: string[] = [];
        let element = document.activeElement;
        for (; element !== null; element = element.shadowRoot?.activeElement ?? null) {
          path.push(`${element.localName}#${element.id}`);
        }
        return path.join(' ');
      });
    await page.locator(`nav a[href="#${name}"]`).focus();
    await page.keyboard.press('Enter');
    await expect.poll(focused).toMatch(new RegExp(`#${name} .*h2#title$`));
    await page.keyboard.press('Tab');
    expect(await focused()).toMatch(new RegExp(`#${name} `));
    expect(await focused()).not.toMatch(/h2#/);
  });

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
    // [ISO5] by definition of the factor log10 t grows by Q d. The line of least squares through these
    // three, by hand: Q = 0.6242 / 0.5067 = 1.232 with a standard error of 0.013.
    for (const [index, [density, seconds]] of [
      ['0.20', '10'],
      ['0.80', '56.2'],
      ['1.20', '170'],
    ].entries()) {
      await page.getByLabel(`Density of patch ${index + 1}`).fill(density!);
      await page.getByLabel(`Time of patch ${index + 1}`).fill(seconds!);
    }
    const result = page.locator('wb-callier #measured');
    await expect.poll(() => result.innerText()).toMatch(/Callier factor Q 1\.232 ± 0\.013/);
    await page.locator('wb-callier #use').click();
    await expect
      .poll(() => page.getByLabel('Callier factor Q').first().inputValue())
      .toMatch(/^1\.232/);
    await page.getByText('with Q 1.23').first().waitFor();
    // Its error goes with it into the printing range, and goes when another factor is typed.
    const error = page.getByLabel('Its standard error');
    await expect.poll(() => error.inputValue()).toMatch(/^0\.013/);
    await page.getByText('its error counted').first().waitFor();
    await error.fill('0.05');
    await expect
      .poll(() => page.locator('wb-match .result').innerText())
      .toMatch(/its error allows [\d.]+ to [\d.]+ \(95 %\)/);
    await page.getByLabel('Callier factor Q').first().fill('1.3');
    await expect.poll(() => error.inputValue()).toBe('');
    await expect.poll(() => page.locator('wb-match .result').innerText()).not.toMatch(/its error/);
  });

  it('is measured by two prints on one paper, whose curve must be known', async () => {
    const { page } = app;
    const card = page.locator('wb-callier');
    await page.locator('nav a[href="#match"]').click();
    await page.getByText('Measure the factor of your own enlarger').click();
    await card.locator('select').selectOption('prints');
    await card.getByText('known by a strip of your own').waitFor();
    await page.locator('wb-paper select#paper').selectOption({ label: 'Graded paper, own strip' });
    const prints = { highlight: '0.35', shadow: '1.50' };
    for (const light of ['Your light', 'Diffuse light']) {
      for (const [spot, density] of Object.entries(prints)) {
        await card.getByLabel(`${light}: ${spot}`).fill(density);
      }
    }
    // The same greys under both lights: by definition of the factor it is 1, as sure as readings are.
    const result = card.locator('#measured');
    await expect.poll(() => result.innerText()).toMatch(/Callier factor Q 1\.000 ± 0\.0\d\d/);
    await card.getByLabel('Your light: shadow').fill('1.70');
    await expect.poll(() => result.innerText()).toMatch(/Q 1\.[1-4]\d\d ±/);
    await card.locator('#use').click();
    await expect.poll(() => page.getByLabel('Its standard error').inputValue()).toMatch(/^0\.0\d/);
    await card.getByLabel('Your light: shadow').fill('0.20');
    await card.getByText('not darker than its highlight').waitFor();
  });
});
