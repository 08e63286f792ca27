import { describe, expect, it } from 'vitest';
import { markOf, textOf } from './chromium.ts';
import { withApp } from './with-app.ts';

const app = withApp();

describe('the bath', () => {
  it('moves the treated curve, the columns and the figures with its sliders', async () => {
    const { page } = app;
    const curve = await markOf(page, 'curve-after');
    const table = page.locator('wb-treatment .before-after');
    const figures = await textOf(table);
    const slider = page.getByLabel('Minutes in the bath, slider').last();
    await slider.focus();
    for (let i = 0; i < 8; i++) await page.keyboard.press('ArrowLeft');
    await expect.poll(() => markOf(page, 'curve-after')).not.toBe(curve);
    await expect.poll(() => textOf(table)).not.toBe(figures);
    expect(await page.locator('wb-treatment #minutes input').first().inputValue()).toBe('4.5');
    await page.keyboard.press('Control+z');
    await expect.poll(() => markOf(page, 'curve-after')).toBe(curve);
  });

  it('at no minutes changes nothing: the treated curve lies on the untreated one', async () => {
    const { page } = app;
    await page.locator('wb-treatment #minutes input').first().fill('0');
    await expect
      .poll(async () => {
        const numbers = (d: string | null) => (d ?? '').match(/-?\d+(\.\d+)?/g)?.map(Number) ?? [];
        const [a, b] = [await markOf(page, 'curve-before'), await markOf(page, 'curve-after')];
        const [x, y] = [numbers(a), numbers(b)];
        return x.length === y.length && x.every((value, i) => Math.abs(value - (y[i] ?? 0)) < 0.05);
      })
      .toBe(true);
  });

  it('has its cautions, with sources, beside it', async () => {
    const { page } = app;
    await page.locator('wb-treatment #minutes').scrollIntoViewIfNeeded();
    const cautions = page
      .locator('wb-treatment .cautions')
      .filter({
        has: page.getByRole('heading', { name: 'Before you open the bottle', exact: true }),
      })
      .first();
    expect(await cautions.isVisible()).toBe(true);
    const items = await cautions.locator('li').allTextContents();
    expect(items.length).toBeGreaterThanOrEqual(8);
    for (const item of items) expect(item).toMatch(/(verified|unverified)\s+·\s+\S/);
    expect(items.join(' ')).toMatch(/Never let acid into a selenium bath/);
    const bath = await page.locator('wb-treatment .controls').boundingBox();
    const box = await cautions.boundingBox();
    expect(box!.y - (bath!.y + bath!.height)).toBeLessThan(300);
  });

  it('reads 68 degF as 20 °C and 7:30 as 7.5 min, loading the units only then', async () => {
    const { page } = app;
    const loaded: string[] = [];
    page.on('request', (request) => loaded.push(request.url()));
    const celsius = page.locator('wb-treatment #celsius input').first();
    await celsius.fill('77 degF');
    await celsius.press('Tab');
    await expect.poll(() => celsius.inputValue()).toBe('25');
    expect(loaded.some((url) => url.includes('quantities'))).toBe(true);
    const minutes = page.locator('wb-treatment #minutes input').first();
    await minutes.fill('7:30');
    await minutes.press('Tab');
    await expect.poll(() => minutes.inputValue()).toBe('7.5');
  });

  it('keeps what it cannot read, and says which value is in use', async () => {
    const { page } = app;
    const celsius = page.locator('wb-treatment #celsius input').first();
    await celsius.fill('95');
    await celsius.press('Tab');
    expect(await celsius.inputValue()).toBe('95');
    expect(await textOf(page.locator('wb-treatment #celsius .wrong'))).toBe(
      '“95” cannot be used here: it must be from 0 to 60 °C. 20 is still in use.',
    );
  });

  it('plans a reachable grade, uses it, and says why another is out of reach', async () => {
    const { page } = app;
    const target = page.getByLabel('Grade to reach');
    await target.selectOption('3');
    await expect
      .poll(() => textOf(page.locator('wb-treatment .plan')))
      .toMatch(/Grade 3 is reached in \d/);
    await page.getByRole('button', { name: /^Use / }).click();
    await target.selectOption('1');
    await expect
      .poll(() => textOf(page.locator('wb-treatment .plan')))
      .toMatch(/Not reachable: grade 1 needs a gain of ×\d.*at most/);
    await target.selectOption('5');
    await expect
      .poll(() => textOf(page.locator('wb-treatment .plan')))
      .toMatch(/only adds density/);
  });

  it('aims for a density range and for the scale of the paper', async () => {
    const { page } = app;
    const said = () => textOf(page.locator('wb-treatment .plan'));
    const kind = page.getByLabel('Aim for');
    await kind.selectOption('range');
    await expect.poll(said).toMatch(/Type the density range/);
    await page.locator('wb-treatment #target-range input').fill('0.85');
    await expect.poll(said).toMatch(/0\.85 is reached in \d/);
    await kind.selectOption('paper');
    await expect.poll(said).toMatch(/is reached in \d|Not reachable/);
    expect(await page.locator('wb-treatment #target').count()).toBe(0);
  });

  it('holds a parameter of the bath, says whose it is, and lets go', async () => {
    const { page } = app;
    const station = page.locator('wb-treatment');
    const gain = station.locator('[data-held="maximumGain"] input');
    const row = station.locator('table tr', { hasText: /yours|held by you|fitted/ }).first();
    const before = await textOf(row);
    await gain.evaluate((input: HTMLElement) => {
      input.closest('details')?.setAttribute('open', '');
      (input.getRootNode() as ShadowRoot).host.closest('details')?.setAttribute('open', '');
    });
    await gain.fill('1.15');
    await expect.poll(() => textOf(row)).toMatch(/1\.150.*held by you/);
    await page.keyboard.press('Control+z');
    await expect.poll(() => textOf(row)).toBe(before);
  });

  it('tones the fog too where the clear base is known', async () => {
    const { page } = app;
    const station = page.locator('wb-treatment');
    const fog = station.locator('.before-after tr', { hasText: 'Base + fog' });
    const [before] = [await textOf(fog)];
    await station.locator('summary', { hasText: 'fog' }).first().click();
    await station.locator('#clear-base input').fill('0.05');
    await expect.poll(() => textOf(fog)).not.toBe(before);
    await station.locator('#clear-base input').fill('1');
    await expect.poll(() => station.locator('.wrong').allTextContents()).not.toEqual([]);
  });

  it('says before the bath what a stained negative would lose', async () => {
    const { page } = app;
    const station = page.locator('wb-treatment');
    await station.locator('summary', { hasText: 'Staining developer' }).click();
    await station.locator('wb-number[key="plan/stain"] input').first().fill('0.2');
    await expect.poll(() => textOf(station.locator('.stain-loss'))).toMatch(/×\d\.\d\d.*×\d\.\d\d/);
  });

  it('keeps the target grade and the family of curves across a reload', async () => {
    const { page } = app;
    await page.getByLabel('Grade to reach').selectOption('2');
    const family = page.locator('wb-curve input[name="family"]').nth(2);
    expect(await family.isChecked()).toBe(false);
    await family.evaluate((radio: HTMLInputElement) => {
      radio.click();
    });
    // The notebook is saved a moment after the last change.
    await page.waitForTimeout(1500);
    await page.reload();
    await page.locator('wb-sheet svg').first().waitFor();
    await expect.poll(() => page.getByLabel('Grade to reach').inputValue()).toBe('2');
    await expect.poll(() => family.isChecked()).toBe(true);
  });

  it('mixes a working solution', async () => {
    const { page } = app;
    await page.getByLabel('Working solution needed').fill('500 ml');
    await page.getByLabel('Working solution needed').press('Tab');
    await expect
      .poll(() => textOf(page.locator('wb-mixing output')))
      .toMatch(/^250 ml .* concentrate \+ 250 ml .* water = 500 ml/);
  });
});

describe('the match', () => {
  it('follows the chosen negative and the paper', async () => {
    const { page } = app;
    await page.locator('wb-match #negative').selectOption({ label: 'Gangway with lamp' });
    await expect.poll(() => textOf(page.locator('.verdict'))).toMatch(/^Gangway with lamp/);
    await page.locator('wb-paper #paper').selectOption('');
    await page.locator('wb-paper #grade').selectOption('5');
    expect(await page.locator('wb-sheet #sheet svg').innerHTML()).toMatch(/over</);
  });

  it('takes a range alone, and spots one by one', async () => {
    const { page } = app;
    await page.getByRole('button', { name: '+ New negative' }).click();
    await page.getByLabel('or its density range alone').fill('1.05');
    await expect.poll(() => textOf(page.locator('wb-match .says'))).toBe('calls for grade 2');
    const shadow = page.getByLabel('Add a shadow reading');
    await shadow.fill('0.35');
    await shadow.press('Enter');
    const highlight = page.getByLabel('Add a highlight reading');
    await highlight.fill('1.1');
    await highlight.press('Enter');
    await expect.poll(() => textOf(page.locator('wb-match .says'))).toBe('calls for grade 4');
    expect(await page.getByLabel('or its density range alone').count()).toBe(0);
  });

  it('counts the Callier factor of the light', async () => {
    const { page } = app;
    await page.locator('wb-paper #light').selectOption('condenser');
    await expect.poll(() => textOf(page.locator('wb-match .result'))).toContain('with Q 1.20');
    await expect.poll(() => textOf(page.locator('wb-paper .mark').first())).toContain('unverified');
  });
});
