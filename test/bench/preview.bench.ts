/**
 * The picture preview: `npm run bench -- preview`.
 *
 * First the work by itself: the tones of a view of two million pixels, the tables of four prints, and
 * painting one pane of that size. Then the page, in Chromium without a graphics card on the built
 * app, 1920 x 1080: a slider goes one step at every frame of the screen, up and down, so that every
 * frame asks for another drawing. A drawing is counted when all panes that it changes are painted;
 * there is at most one for each frame of the screen (60 a second), and a busy machine skips some.
 * `frames asked` is what the page itself managed. CPU time is that of all processes of the browser
 * together, and tells on a shared machine more than the rate does.
 */
import type { CDPSession, Page } from 'playwright-core';
import { generatedPaper, fitTreatment, treatmentEffect } from '@wedgebook/core';
import { seleniumDefaults } from '@wedgebook/data';
import { demoScene, SCENE_HEIGHT, SCENE_WIDTH } from '../../apps/web/src/picture/demo-scene.ts';
import { fourPrints } from '../../apps/web/src/picture/four-prints.ts';
import { negativeTones } from '../../apps/web/src/picture/negative-tones.ts';
import type { Drawing } from '../../apps/web/src/picture/picture-messages.ts';
import { screenTable } from '../../apps/web/src/picture/screen-table.ts';
import { TONE_LEVELS, tonesOfLogs } from '../../apps/web/src/picture/tone-picture.ts';
import { paint, tonesInView, WHOLE } from '../../apps/web/src/picture/viewport.ts';
import { launchChromium, openApp } from '../browser/chromium.ts';
import buildApp from '../browser/build-app.ts';
import { serveApp } from '../browser/served-app.ts';

const ROUNDS = 60;
const SLIDER_STEPS = 240;

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
  const colours = new Uint32Array(TONE_LEVELS + 1);
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
    for (const table of prints) {
      colours.set(table);
      paint(seen, colours, pixels);
    }
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
  const session = await browser.newBrowserCDPSession();
  for (const field of ['stops', 'minutes']) {
    const before = await cpuSeconds(session);
    const { asked, drawn, panes, seconds, megapixels } = await slide(page, field);
    const cpu = (1000 * ((await cpuSeconds(session)) - before)) / drawn;
    console.log(
      `in the page, slider ${field}: ${drawn} drawings of ${asked} frames asked in ${seconds.toFixed(2)} s, ${(drawn / seconds).toFixed(0)} a second; ${(panes / drawn).toFixed(1)} panes painted a drawing, the four together ${megapixels.toFixed(1)} megapixels; CPU ${cpu.toFixed(1)} ms a drawing`,
    );
  }
  await close();
  await browser.close();
  await server.close();
}

/** Moves a slider by a step at each frame of the screen, and counts the drawings. */
function slide(page: Page, field: string) {
  return page.locator('wb-picture').evaluate(
    async (station, { id, steps }) => {
      const root = station.shadowRoot;
      const view = root?.querySelector('wb-prints');
      const number = root?.querySelector(`wb-number#${id}`);
      const slider = number?.shadowRoot?.querySelector<HTMLInputElement>('input[type=range]');
      const canvas = view?.shadowRoot?.querySelector('canvas');
      if (!view || !slider || !canvas) throw new Error('the station is not complete');
      const { clientWidth, clientHeight } = canvas;
      let drawn = 0;
      let panes = 0;
      const count = (event: Event) => {
        drawn += 1;
        panes += (event as CustomEvent<Drawing>).detail.panes;
      };
      view.addEventListener('wb-drawn', count);
      const [low, high, step] = [slider.min, slider.max, slider.step].map(Number) as [
        number,
        number,
        number,
      ];
      const places = Math.round((high - low) / step);
      const begun = performance.now();
      for (let i = 0; i < steps; i++) {
        const place = i % (2 * places);
        slider.value = String(low + step * Math.min(place, 2 * places - place));
        slider.dispatchEvent(new Event('input', { bubbles: true }));
        await new Promise(requestAnimationFrame);
      }
      const seconds = (performance.now() - begun) / 1000;
      view.removeEventListener('wb-drawn', count);
      const megapixels = (4 * clientWidth * clientHeight * devicePixelRatio ** 2) / 1e6;
      return { asked: steps, drawn, panes, seconds, megapixels };
    },
    { id: field, steps: SLIDER_STEPS },
  );
}

async function cpuSeconds(session: CDPSession): Promise<number> {
  const { processInfo } = await session.send('SystemInfo.getProcessInfo');
  return processInfo.reduce((sum, { cpuTime }) => sum + cpuTime, 0);
}
