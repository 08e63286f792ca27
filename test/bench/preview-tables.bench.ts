/**
 * How long the look-up tables of a picture take to make, for each kind of film and paper: a slider
 * that moves remakes one table for each way of printing. Best of twenty, milliseconds.
 *
 * `npm run bench -- preview-tables`
 */
import {
  fitCurve,
  fitPaperCurve,
  generatedPaper,
  mixturePaper,
  paperAtSetting,
  paperMap,
  subjectTable,
  type CharacteristicCurve,
  type PrintPaper,
  type ToneChain,
} from '@wedgebook/core';

const steps = Array.from({ length: 25 }, (_, i) => -3.2 + 0.15 * i);

function filmCurve(family: 'toe-shoulder' | 'monotone-smooth'): CharacteristicCurve {
  const densities = steps.map((x) => 0.12 + 0.14 * Math.log1p(Math.exp((x + 2.2) / 0.2)));
  const fit = fitCurve({ logExposures: steps, densities, unexposedDensities: [0.12] }, { family });
  if (fit.status !== 'ok') throw new Error(fit.reason);
  return fit.curve;
}

function paperCurve(k: number): CharacteristicCurve {
  const fit = fitPaperCurve({
    logExposures: steps,
    densities: steps.map((x) => 0.06 + 2 / (1 + Math.exp(-k * (x + 1)))),
    unexposedDensities: [0.06],
  });
  if (fit.status !== 'ok') throw new Error(fit.reason);
  return fit.curve;
}

/** Prints the table of times. */
export function main(): void {
  const map = paperMap([
    { setting: '1', curve: paperCurve(4.5) },
    { setting: '3', curve: paperCurve(6.5) },
  ]);
  if (map.status !== 'ok') throw new Error(map.reason);
  const layers = {
    minimumDensity: 0.06,
    netMaximumDensity: 2.05,
    layerContrast: 15.3,
    hardLogSpeed: 0,
    softLogSpeeds: [0, -0.78, -1.56],
  };
  const papers: readonly (readonly [string, PrintPaper])[] = [
    ['generated paper', generatedPaper(1.05)],
    ['own strip', { kind: 'strip', exposureScale: 1.3, curve: paperCurve(4.5) }],
    ['between two strips', paperAtSetting(map.map, 2).paper],
    ['soft and hard light', mixturePaper(layers, -0.3)],
  ];
  for (const family of ['toe-shoulder', 'monotone-smooth'] as const) {
    const film = filmCurve(family);
    for (const [name, paper] of papers) {
      const chain: ToneChain = {
        film,
        logExposureAtZero: -1.2,
        cameraFlareExposure: 0.002,
        printing: {
          baseFog: 0.12,
          effect: null,
          callierFactor: 1.2,
          enlargerFlare: 0.01,
          paper,
          paperWhiteDensity: 0.06,
          printLogExposure: 1.6,
        },
      };
      let best = Infinity;
      for (let i = 0; i < 20; i++) {
        const started = performance.now();
        subjectTable(chain);
        best = Math.min(best, performance.now() - started);
      }
      console.log(`${family.padEnd(18)}${name.padEnd(22)}${best.toFixed(2).padStart(8)} ms`);
    }
  }
}
