/** A strip read from a generated scan of known densities (see test/generated-scan.ts). */
import { nominalTablet } from '@wedgebook/core';
import { encode } from 'fast-png';
import type { Page } from 'playwright-core';
import { describe, expect, it } from 'vitest';
import { generatedScan } from '../generated-scan.ts';
import { axeFindings } from './axe-findings.ts';
import { cellOf, textOf } from './chromium.ts';
import { withApp } from './with-app.ts';

const app = withApp();

const tabletDensities = nominalTablet({ steps: 21, increment: 0.15 });
const stripDensities = tabletDensities.map((density) => 2.1 - 0.6 * density);
const generated = generatedScan({
  tabletDensities,
  stripDensities,
  pitch: 20,
  stripWidth: 44,
  flare: 0.002,
  encoding: 'power',
});
const { image, tablet, strip } = generated;
const { width, height, values } = image;
const scanFile = {
  name: 'wedge.png',
  mimeType: 'image/png',
  buffer: Buffer.from(
    encode({ width, height, data: values as Uint16Array, depth: 16, channels: 1 }),
  ),
};

async function openScan(page: Page): Promise<void> {
  await page.getByText('Read a strip from a scan or photograph').click();
  await page.locator('wb-scan input[type=file]').setInputFiles(scanFile);
  await page.locator('wb-scan-picture svg').waitFor();
}

/** Points at a place of the picture, as a hand does: off by a few pixels. */
async function pointAt(page: Page, x: number, y: number): Promise<void> {
  const drawing = page.locator('wb-scan-picture svg');
  const box = (await drawing.boundingBox())!;
  const scale = Math.min(box.width / width, box.height / height);
  const left = (box.width - width * scale) / 2;
  const top = (box.height - height * scale) / 2;
  await drawing.click({ position: { x: left + x * scale, y: top + y * scale } });
}

async function typeEnds(page: Page): Promise<void> {
  await page.getByText('Places of the ends, pixels').click();
  const fields = page.locator('wb-scan .places wb-number input[type=text]');
  const numbers = [tablet, strip].flatMap(({ from, to, width: across }) => [
    from.x + 3,
    from.y,
    to.x - 4,
    to.y + 2,
    across,
  ]);
  for (const [index, value] of numbers.entries()) {
    await fields.nth(index).fill(String(Math.round(value)));
  }
}

describe('a strip read from a scan', () => {
  it('is marked by typing, read with errors, and comes into the notebook in one step', async () => {
    const { page } = app;
    const strips = await page.locator('wb-readings .rack button').count();
    await openScan(page);
    await typeEnds(page);
    await page.getByRole('button', { name: 'Read the steps' }).click();
    await page.getByText('21 of 21 steps read.').waitFor();
    await page.getByText('the light to the power of 0.45').waitFor();
    await page.getByRole('button', { name: 'Put it into the notebook' }).click();
    await expect.poll(() => page.locator('wb-readings .rack button').count()).toBe(strips + 1);
    for (const row of [0, 10, 20]) {
      const read = Number(await cellOf(page, row, 1).inputValue());
      expect(Math.abs(read - stripDensities[row]!)).toBeLessThan(0.01);
    }
    await page.keyboard.press('Control+z');
    await expect.poll(() => page.locator('wb-readings .rack button').count()).toBe(strips);
  });

  it('has no fault that axe finds, marked and read', async () => {
    const { page } = app;
    await openScan(page);
    await typeEnds(page);
    await page.getByRole('button', { name: 'Read the steps' }).click();
    await page.getByText('21 of 21 steps read.').waitFor();
    expect(await axeFindings(page, '#readings')).toEqual([]);
  });

  it('is marked by pointing at its four ends', async () => {
    const { page } = app;
    await openScan(page);
    for (const { from, to } of [tablet, strip]) {
      await pointAt(page, from.x + 4, from.y);
      await pointAt(page, to.x - 3, to.y + 1);
    }
    await page.getByRole('button', { name: 'Read the steps' }).click();
    await page.getByText('21 of 21 steps read.').waitFor();
    const first = await textOf(page.locator('wb-scan tbody tr').first().locator('td').first());
    expect(Math.abs(Number(first) - stripDensities[0]!)).toBeLessThan(0.01);
  });

  it('says what to do where the tablet is marked from its dense end', async () => {
    const { page } = app;
    await openScan(page);
    await typeEnds(page);
    await page.getByRole('button', { name: 'Turn the tablet end for end' }).click();
    await page.getByRole('button', { name: 'Read the steps' }).click();
    await page.getByText('The tablet grows lighter where it should grow denser').waitFor();
    await page.getByRole('button', { name: 'Turn the tablet end for end' }).click();
    await page.getByRole('button', { name: 'Read the steps' }).click();
    await page.getByText('21 of 21 steps read.').waitFor();
  });

  it('takes a JPEG with the limit of its 8 bits told, and refuses what is no picture', async () => {
    const { page } = app;
    await page.getByText('Read a strip from a scan or photograph').click();
    const input = page.locator('wb-scan input[type=file]');
    await input.setInputFiles({
      name: 'words.tif',
      mimeType: 'image/tiff',
      buffer: Buffer.from('II+\0 and more'),
    });
    await page.getByText('This is a BigTIFF').waitFor();
    // The browser itself writes the JPEG: an encoder of other hands.
    const base64 = await page.evaluate(async () => {
      const canvas = new OffscreenCanvas(300, 200);
      const context = canvas.getContext('2d')!;
      for (let i = 0; i < 30; i++) {
        context.fillStyle = `rgb(${8 * i} ${8 * i} ${8 * i})`;
        context.fillRect(10 * i, 0, 10, 200);
      }
      const blob = await canvas.convertToBlob({ type: 'image/jpeg', quality: 1 });
      const bytes = new Uint8Array(await blob.arrayBuffer());
      return btoa(Array.from(bytes, (byte) => String.fromCharCode(byte)).join(''));
    });
    await input.setInputFiles({
      name: 'photo.jpg',
      mimeType: 'image/jpeg',
      buffer: Buffer.from(base64, 'base64'),
    });
    await page.getByText('photo.jpg: JPEG, 300 × 200 pixels, 8 bits').waitFor();
    await page.getByText('A file of 8 bits has 256 levels').waitFor();
  });
});
