import { describe, expect, it } from 'vitest';
import { cellOf, textOf } from './chromium.ts';
import { withApp } from './with-app.ts';

const app = withApp();

describe('readings by a light meter', () => {
  it('ask for the open light first, and then become densities', async () => {
    const { page } = app;
    await page.getByLabel('Readings in').selectOption('lux');
    await cellOf(page, 0, 1).fill('100');
    expect(await textOf(page.locator('wb-worksheet .fault'))).toContain(
      'Give the meter’s reading of the open light first',
    );
    await page.getByLabel('Open light, without the strip').fill('1000');
    await cellOf(page, 0, 1).fill('100');
    await expect.poll(() => page.locator('wb-worksheet .fault').count()).toBe(0);
    await page.getByLabel('Readings in').selectOption('density');
    await expect.poll(() => cellOf(page, 0, 1).inputValue()).toBe('1.00');
  });

  it('show their error, and read stops and matched times as well', async () => {
    const { page } = app;
    await page.getByLabel('Readings in').selectOption('exposure-value');
    await page.getByLabel('Open light, without the strip').fill('12');
    await page.getByLabel('Least step of the meter').fill('0,33');
    // By hand: 0.30103 x sqrt 2 x 0.33 / sqrt 12 = 0.0406
    await page.getByText('a standard error of ±0.041 when thin').waitFor();
    await cellOf(page, 1, 1).fill('11');
    await page.getByLabel('Readings in').selectOption('seconds');
    await page.getByLabel('Time without the strip').fill('10');
    await expect.poll(() => cellOf(page, 1, 1).inputValue()).toBe('20');
    await cellOf(page, 1, 1).fill('0');
    expect(await textOf(page.locator('wb-worksheet .fault'))).toContain(
      'a meter shows more than 0 there',
    );
  });
});
