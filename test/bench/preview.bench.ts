/**
 * The picture preview: `npm run bench -- preview`.
 *
 * First the work by itself, on two million pixels: the tables of four prints, and painting them.
 * Then the page: frames drawn in a second while the exposure slider moves, four prints of together
 * about two million screen pixels, in Chromium on the built app.
 */
import { generatedPaper, fitTreatment, treatmentEffect } from '@wedgebook/core';
import { seleniumDefaults } from '@wedgebook/data';
import { demoScene, SCENE_HEIGHT, SCENE_WIDTH } from '../../apps/web/src/picture/demo-scene.ts';
import { fourPrints } from '../../apps/web/src/picture/four-prints.ts';
import { negativeTones } from '../../apps/web/src/picture/negative-tones.ts';
import { screenTable } from '../../apps/web/src/picture/screen-table.ts';
import { tonesOfLogs } from '../../apps/web/src/picture/tone-picture.ts';
import { paint, tonesInView, WHOLE } from '../../apps/web/src/picture/viewport.ts';
import { launchChromium, openApp } from '../browser/chromium.ts';
import buildApp from '../browser/build-app.ts';
import { serveApp } from '../browser/served-app.ts';

const ROUNDS = 30;
const SLIDER_STEPS = 120;

export async function main(): Promise<void> {
  work();
  await page();
}

function work(): void {
  const begun = performance.now();
  const logs = demoScene();
  const drawn = performance.now();
  const picture = tonesOfLogs(logs, SCENE_WIDTH, SCENE_HEIGHT);
  const ends = { shadow: 0.25, highlight: 1.2 };
  const negative = negativeTones({ picture, positive: true, ends, film: null });
  const model = fitTreatment([], seleniumDefaults);
  const pane = { width: SCENE_WIDTH, height: SCENE_HEIGHT };
  const viewBegun = performance.now();
  const seen = tonesInView(picture, WHOLE, pane);
  const viewed = performance.now();
  const pixels = new Uint32Array(seen.length);
  const tables: number[] = [];
  const paints: number[] = [];
  for (let round = 0; round < ROUNDS; round++) {
    const start = performance.now();
    const prints = fourPrints({
      negative,
      ends,
      untreated: treatmentEffect(model, { partsWater: 1, minutes: 0, celsius: 20 }),
      treated: treatmentEffect(model, { partsWater: 1, minutes: 4 + round / 10, celsius: 20 }),
      callierFactor: 1,
      enlargerFlare: 0.005,
      paper: generatedPaper(1.1),
      stops: round / 30,
    }).map(({ netDensities }) => screenTable(netDensities, 'grey'));
    const made = performance.now();
    for (const table of prints) paint(seen, table, 0, pixels);
    tables.push(made - start);
    paints.push(performance.now() - made);
  }
  console.log(
    `scene of ${SCENE_WIDTH} x ${SCENE_HEIGHT} drawn in ${(drawn - begun).toFixed(0)} ms`,
  );
  console.log(`tones of a view of 2 megapixels: ${(viewed - viewBegun).toFixed(1)} ms`);
  console.log(`tables of four prints: p50 ${middle(tables)} ms`);
  console.log(`painting four prints of 2 megapixels each: p50 ${middle(paints)} ms`);
}

const middle = (times: readonly number[]): string =>
  (times.toSorted((a, b) => a - b)[Math.floor(times.length / 2)] ?? NaN).toFixed(1);

async function page(): Promise<void> {
  buildApp();
  const server = await serveApp();
  const browser = await launchChromium();
  const { page, close } = await openApp(browser, server.url, { width: 1920, height: 1080 });
  await page.locator('nav a[href="#picture"]').click();
  await page.locator('wb-picture wb-chart').scrollIntoViewIfNeeded();
  await page.locator('wb-picture wb-chart svg').first().waitFor();
  await page.locator('wb-prints canvas').first().scrollIntoViewIfNeeded();
  // The whole scene replaces its sketch.
  await page.waitForTimeout(8000);
  const found = await page.locator('wb-picture').evaluate(async (station, steps) => {
    const root = station.shadowRoot;
    const view = root?.querySelector('wb-prints');
    const field = root?.querySelector('wb-number#stops');
    const slider = field?.shadowRoot?.querySelector<HTMLInputElement>('input[type=range]');
    const canvas = view?.shadowRoot?.querySelector('canvas');
    if (!view || !slider || !canvas) throw new Error('the station is not complete');
    const { width, height } = canvas.getBoundingClientRect();
    let drawn = 0;
    view.addEventListener('wb-drawn', () => (drawn += 1));
    const begun = performance.now();
    for (let i = 0; i < steps; i++) {
      slider.value = String(-1 + (2 * i) / steps);
      slider.dispatchEvent(new Event('input', { bubbles: true }));
      await new Promise(requestAnimationFrame);
    }
    const seconds = (performance.now() - begun) / 1000;
    return { drawn, seconds, megapixels: (4 * width * height * devicePixelRatio ** 2) / 1e6 };
  }, SLIDER_STEPS);
  const { drawn, seconds, megapixels } = found;
  console.log(
    `in the page: ${drawn} drawings in ${seconds.toFixed(2)} s, ${(drawn / seconds).toFixed(0)} a second, four prints of together ${megapixels.toFixed(1)} megapixels`,
  );
  await close();
  await browser.close();
  await server.close();
}
