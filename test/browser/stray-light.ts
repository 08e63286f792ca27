/** What the red-on-black theme must not show: light other than red. */
import type { Page } from 'playwright-core';

/** Brightest that green or blue may be, of 255: less cannot be told from black. */
const DARK = 8;

/** Pixels of what the page shows now that have green or blue in them. */
export async function strayPixels(page: Page): Promise<number> {
  const png = await page.screenshot();
  return page.evaluate(
    async ([base64, dark]) => {
      const bytes = Uint8Array.from(atob(base64), (letter) => letter.charCodeAt(0));
      const image = await createImageBitmap(new Blob([bytes], { type: 'image/png' }));
      const canvas = new OffscreenCanvas(image.width, image.height);
      const context = canvas.getContext('2d')!;
      context.drawImage(image, 0, 0);
      const { data } = context.getImageData(0, 0, image.width, image.height);
      let count = 0;
      for (let i = 0; i < data.length; i += 4)
        if (data[i + 1]! > dark || data[i + 2]! > dark) count += 1;
      return count;
    },
    [png.toString('base64'), DARK] as const,
  );
}
