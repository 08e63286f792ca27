import { describe, expect, it } from 'vitest';
import { cellOf, markOf, pasteInto, textOf } from './chromium.ts';
import { withApp } from './with-app.ts';

const app = withApp();

const saved = () => app.page.locator('[data-saved]').first();

describe('a first visit', () => {
  it('opens on the demonstration notebook, marked as invented, with curves drawn', async () => {
    const { page } = app;
    await expect
      .poll(() => page.getByText('every reading in it is invented').isVisible())
      .toBe(true);
    expect(await markOf(page, 'curve-before')).toMatch(/^M/);
    expect(await markOf(page, 'curve-after')).toMatch(/^M/);
    expect(await markOf(page, 'fill-before')).toMatch(/^M/);
    expect(await textOf(page.locator('.verdict'))).toMatch(/grade 4; after the bath .* grade 3/);
    expect(await page.getByRole('button', { name: 'Start an empty notebook' }).isVisible()).toBe(
      true,
    );
  });

  it('starts an empty notebook, and undo brings the demonstration back', async () => {
    const { page } = app;
    await page.getByRole('button', { name: 'Start an empty notebook' }).click();
    expect(await page.locator('wb-readings .rack button').count()).toBe(0);
    expect(await page.getByText('Add one and type or paste').isVisible()).toBe(true);
    await page.keyboard.press('Control+z');
    await expect.poll(() => markOf(page, 'curve-before')).toMatch(/^M/);
  });
});

describe('readings', () => {
  it('correct one and everything below changes', async () => {
    const { page } = app;
    const before = {
      curve: await markOf(page, 'curve-before'),
      measures: await textOf(page.locator('wb-measures section')),
      toned: await markOf(page, 'curve-after'),
    };
    await cellOf(page, 0, 1).fill('1.90');
    await expect.poll(() => markOf(page, 'curve-before')).not.toBe(before.curve);
    await expect.poll(() => textOf(page.locator('wb-measures section'))).not.toBe(before.measures);
    expect(await markOf(page, 'curve-after')).not.toBe(before.toned);
    await page.keyboard.press('Control+z');
    await expect.poll(() => markOf(page, 'curve-before')).toBe(before.curve);
    expect(await cellOf(page, 0, 1).inputValue()).toBe('1.36');
  });

  it('walk with arrows and Enter', async () => {
    const { page } = app;
    await cellOf(page, 3, 1).focus();
    await page.keyboard.press('Enter');
    await page.keyboard.press('ArrowRight');
    const at = await page.evaluate(() => {
      let active: Element | null = document.activeElement;
      while (active?.shadowRoot?.activeElement) active = active.shadowRoot.activeElement;
      return active instanceof HTMLElement
        ? [active.dataset['row'], active.dataset['column']]
        : null;
    });
    expect(at).toEqual(['4', '2']);
  });

  it('keep a wrong entry as typed, say what is wrong, and keep it over a reload', async () => {
    const { page } = app;
    await cellOf(page, 2, 1).fill('1.2q');
    const fault = page.locator('wb-worksheet .fault');
    expect(await textOf(fault)).toContain('“1.2q” is not a number');
    expect(await cellOf(page, 2, 1).getAttribute('aria-invalid')).toBe('true');
    expect(await page.getByText('1 entry of this strip cannot be read').isVisible()).toBe(true);
    await page.keyboard.press('Tab');
    expect(await cellOf(page, 2, 1).inputValue()).toBe('1.2q');
    await saved().waitFor();
    await page.reload();
    await cellOf(page, 2, 1).waitFor();
    expect(await cellOf(page, 2, 1).inputValue()).toBe('1.2q');
    await cellOf(page, 2, 1).fill('1,26');
    await expect.poll(() => fault.count()).toBe(0);
  });

  it('paste a messy table: heads, decimal commas, a word, steps in reverse', async () => {
    const { page } = app;
    await page.getByRole('button', { name: '+ New strip' }).click();
    const rows = Array.from({ length: 21 }, (_, i) => {
      const step = 21 - i;
      const density =
        step === 5 ? 'smudge' : (0.15 + 1.4 / (1 + Math.exp((step - 9) / 2.5))).toFixed(2);
      return `${step};${density.replace('.', ',')};`;
    });
    await pasteInto(page, 0, 1, `\r\nStep;Density;\r\n${rows.join('\r\n')}\r\n`);
    await expect.poll(() => cellOf(page, 4, 1).inputValue()).toBe('smudge');
    expect(await cellOf(page, 0, 1).inputValue()).toBe('1.50');
    expect(await cellOf(page, 20, 1).inputValue()).toBe('0.16');
    expect(await textOf(page.locator('[aria-live=polite]'))).toMatch(
      /Pasted 20 readings in 21 rows.*1 cell cannot be read and is kept as pasted/,
    );
    await expect.poll(() => markOf(page, 'curve-before')).toMatch(/^M/);
    await page.keyboard.press('Control+z');
    await expect.poll(() => cellOf(page, 0, 1).inputValue()).toBe('');
  });

  it('are too few to look for slips, which the measures say until there are eight', async () => {
    const { page } = app;
    const note = page.locator('wb-measures').getByText('Slips of reading are looked for from 8');
    await page.getByRole('button', { name: '+ New strip' }).click();
    await pasteInto(
      page,
      0,
      1,
      ['1.52', '1.43', '1.31', '1.19', '1.08', '0.95', '0.82'].join('\n'),
    );
    await expect.poll(() => note.isVisible()).toBe(true);
    expect(await note.textContent()).toMatch(/here are 7\.$/);
    await cellOf(page, 7, 1).fill('0.70');
    await expect.poll(() => note.count()).toBe(0);
  });

  it('are read in transmittance and stops as well', async () => {
    const { page } = app;
    await page.getByLabel('Readings in').selectOption('transmittance');
    await cellOf(page, 0, 1).fill('4 %');
    await page.getByLabel('Readings in').selectOption('density');
    await expect.poll(() => cellOf(page, 0, 1).inputValue()).toBe('1.3979');
  });

  it('survive a reload at once after the last keystroke', async () => {
    const { page } = app;
    await cellOf(page, 1, 2).fill('1.34');
    await page.reload();
    await cellOf(page, 1, 2).waitFor();
    expect(await cellOf(page, 1, 2).inputValue()).toBe('1.34');
    expect(
      await page
        .getByText(/^Saved /)
        .first()
        .isVisible(),
    ).toBe(true);
  });

  it('take a calibrated tablet of the user’s own', async () => {
    const { page } = app;
    await page.getByRole('button', { name: '+ New strip' }).click();
    await page.locator('wb-strip-details summary').first().click();
    await page.getByText('Enter the calibrated densities').click();
    await page.getByLabel('Densities from the clear end').fill('0,04 0,19 x 0,49');
    await page.getByRole('button', { name: 'Use this tablet' }).click();
    expect(await page.getByText('Entry 3, “x”, is not a density').isVisible()).toBe(true);
    await page.getByLabel('Densities from the clear end').fill('0,04 0,19 0,35 0,49 0,66');
    await page.getByRole('button', { name: 'Use this tablet' }).click();
    await expect.poll(() => page.locator('wb-worksheet tbody tr').count()).toBe(6);
  });
});
