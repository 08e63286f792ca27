import { encode } from 'fast-png';
import type { Page } from 'playwright-core';
import { describe, expect, it } from 'vitest';
import { SCENE_WIDTH } from '../../apps/web/src/picture/demo-scene.ts';
import type { PrintsView } from '../../apps/web/src/picture/prints-view.ts';
import { axeFindings } from './axe-findings.ts';
import { textOf } from './chromium.ts';
import { withApp } from './with-app.ts';

const app = withApp();

async function openPicture(page: Page): Promise<void> {
  await page.locator('nav a[href="#picture"]').click();
  // What is out of sight is not laid out.
  await page.locator('wb-picture wb-chart').scrollIntoViewIfNeeded();
  await page.locator('wb-picture wb-chart svg').first().waitFor();
  await page.locator('wb-prints canvas').first().scrollIntoViewIfNeeded();
}

/** Mean of the red, green and blue of a pane as it stands on the screen. */
async function meanOf(page: Page, index: number): Promise<readonly number[]> {
  const canvas = page.locator('wb-prints canvas').nth(index);
  await canvas.scrollIntoViewIfNeeded();
  const png = await canvas.screenshot();
  return page.evaluate(async (base64) => {
    const bytes = Uint8Array.from(atob(base64), (letter) => letter.charCodeAt(0));
    const bitmap = await createImageBitmap(new Blob([bytes], { type: 'image/png' }));
    const context = new OffscreenCanvas(bitmap.width, bitmap.height).getContext('2d')!;
    context.drawImage(bitmap, 0, 0);
    const { data } = context.getImageData(2, 2, bitmap.width - 4, bitmap.height - 4);
    const sums = [0, 0, 0];
    for (let i = 0; i < data.length; i += 4) {
      for (let k = 0; k < 3; k++) sums[k]! += data[i + k]!;
    }
    return sums.map((sum) => sum / (data.length / 4));
  }, png.toString('base64'));
}

function pngOf(levels: readonly number[], bits: 8 | 16): Buffer {
  const side = 8;
  const width = side * levels.length;
  const data = bits === 16 ? new Uint16Array(width * side) : new Uint8Array(width * side);
  for (let i = 0; i < data.length; i++) data[i] = levels[Math.floor((i % width) / side)] ?? 0;
  return Buffer.from(encode({ width, height: side, data, depth: bits, channels: 1 }));
}

describe('the picture', () => {
  it('shows the invented scene printed four ways, and says that it is a prediction', async () => {
    const { page } = app;
    await openPicture(page);
    await page.getByText('wholly invented').waitFor();
    await page.getByText('A prediction from curves and readings').waitFor();
    expect(await page.locator('wb-prints figure:not([hidden])').count()).toBe(4);
    const [red = 0, green = 0] = await meanOf(page, 0);
    expect(red).toBeGreaterThan(40);
    // Fog fills most of the scene: light, but no blank paper.
    expect(red).toBeLessThan(250);
    expect(green).toBe(red);
  });

  it('prints darker with more exposure', async () => {
    const { page } = app;
    await openPicture(page);
    const [before = 0] = await meanOf(page, 0);
    await page.locator('wb-picture wb-number#stops input[type=text]').fill('1');
    await expect.poll(async () => (await meanOf(page, 0))[0] ?? 255).toBeLessThan(before - 10);
  });

  it('paints only the prints that a slider changes', async () => {
    const { page } = app;
    await openPicture(page);
    // The four panes fit into a tall window, so that none waits for being scrolled to.
    await page.setViewportSize({ width: 1280, height: 1600 });
    await page.locator('wb-prints').scrollIntoViewIfNeeded();
    const painted = (id: string, text: string) =>
      page.locator('wb-picture').evaluate(
        async (station, { id, text }) => {
          const root = station.shadowRoot!;
          const view = root.querySelector('wb-prints')!;
          const field = root.querySelector(`wb-number#${id}`)!.shadowRoot!;
          const input = field.querySelector<HTMLInputElement>('input[type=text]')!;
          const drawing = new Promise<number>((resolve) => {
            view.addEventListener(
              'wb-drawn',
              (event) => {
                resolve((event as CustomEvent<{ panes: number }>).detail.panes);
              },
              { once: true },
            );
          });
          input.value = text;
          input.dispatchEvent(new Event('input', { bubbles: true }));
          input.dispatchEvent(new Event('change', { bubbles: true }));
          return drawing;
        },
        { id, text },
      );
    // The whole scene takes the place of its sketch first.
    const width = () =>
      page.locator('wb-prints').evaluate((view) => (view as PrintsView).facts?.width ?? 0);
    await expect.poll(width, { timeout: 30_000 }).toBe(SCENE_WIDTH);
    expect(await painted('stops', '0.5')).toBe(4);
    expect(await painted('minutes', '7')).toBe(2);
  });

  it('moves all prints together by keys', async () => {
    const { page } = app;
    await openPicture(page);
    const panes = page.locator('wb-prints .panes');
    await panes.focus();
    const [before = 0] = await meanOf(page, 3);
    await page.keyboard.press('+');
    await page.keyboard.press('+');
    await page.keyboard.press('+');
    for (let i = 0; i < 9; i++) await page.keyboard.press('ArrowDown');
    for (let i = 0; i < 9; i++) await page.keyboard.press('ArrowLeft');
    // The lower left of the scene is the dark landing stage.
    await expect.poll(async () => (await meanOf(page, 3))[0] ?? 255).toBeLessThan(before - 30);
    expect(await textOf(page.locator('wb-prints .tools span'))).toBe('3.4 × the whole');
    await page.keyboard.press('0');
    expect(await textOf(page.locator('wb-prints .tools span'))).toBe('1.0 × the whole');
  });

  it('reads densities at the place pointed at', async () => {
    const { page } = app;
    await openPicture(page);
    const canvas = page.locator('wb-prints canvas').first();
    await canvas.scrollIntoViewIfNeeded();
    await canvas.hover({ position: { x: 20, y: 20 } });
    const cell = page.locator('wb-picture tbody tr').first().locator('td').nth(2);
    await expect.poll(() => textOf(cell)).toMatch(/^\d\.\d\d$/);
  });

  it('shows the difference of two prints', async () => {
    const { page } = app;
    await openPicture(page);
    await page.getByLabel('Show the difference as a picture').check();
    await page.getByLabel('Show the difference of').selectOption('untreated-same');
    await page.getByLabel('and', { exact: true }).selectOption('untreated-same');
    await expect.poll(async () => Math.round((await meanOf(page, 4))[0] ?? 0)).toBe(128);
  });

  it('opens a scan of 16 bits, as a positive or a negative', async () => {
    const { page } = app;
    await openPicture(page);
    const levels = [1000, 4000, 12000, 30000, 60000, 60000, 60000, 60000];
    await page.locator('wb-picture input[type=file]').setInputFiles({
      name: 'stage.png',
      mimeType: 'image/png',
      buffer: pngOf(levels, 16),
    });
    await page.getByText('stage.png: 64 × 8 pixels, 16 bits').waitFor();
    await expect.poll(async () => (await meanOf(page, 0))[0] ?? 0).toBeGreaterThan(120);
    const [positive = 0] = await meanOf(page, 0);
    await page.getByLabel('The file shows').selectOption('negative');
    await expect.poll(async () => (await meanOf(page, 0))[0] ?? 255).toBeLessThan(positive - 30);
  });

  it('says what is wrong with a file and keeps the picture', async () => {
    const { page } = app;
    await openPicture(page);
    await page.locator('wb-picture input[type=file]').setInputFiles({
      name: 'notes.png',
      mimeType: 'image/png',
      buffer: Buffer.from('no picture'),
    });
    await page.getByText('This is no PNG, TIFF or JPEG').waitFor();
    expect((await meanOf(page, 0))[0]).toBeGreaterThan(40);
  });
});

describe('the opened picture', () => {
  it('has no fault that axe finds, whole and zoomed, with the difference shown', async () => {
    const { page } = app;
    await openPicture(page);
    await page.getByLabel('Show the difference as a picture').check();
    await page.locator('wb-prints .panes').focus();
    await page.keyboard.press('+');
    expect(await axeFindings(page, '#picture')).toEqual([]);
  });
});

describe('the picture in red on black', () => {
  it('is red alone, says so, and offers to leave the theme', async () => {
    const { page, close, faults } = await app.open({ theme: 'darkroom' });
    await openPicture(page);
    const [red = 0, green = 1, blue = 1] = await meanOf(page, 0);
    expect(red).toBeGreaterThan(40);
    expect([green, blue]).toEqual([0, 0]);
    await page.getByRole('button', { name: 'Leave red on black' }).click();
    await expect
      .poll(async () => {
        const [r = 0, g = -1] = await meanOf(page, 0);
        return Math.abs(r - g);
      })
      .toBeLessThan(1);
    expect(faults).toEqual([]);
    await close();
  });
});
