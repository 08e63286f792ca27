/** Asks core to read a scan and puts the answer into plain data. */
import { readScan, type GreyImage } from '@wedgebook/core';
import type { ReadQuestion, ScanAnswer } from './scan-messages.ts';

const SAMPLES = 60;

export function answerOfScan(image: GreyImage, question: ReadQuestion): ScanAnswer {
  const { tablet, tabletDensities, strip, inverted } = question;
  const result = readScan({ image, tablet, tabletDensities, strip, inverted });
  if (result.status !== 'ok') return result;
  const { patches, response, rows, light, warnings } = result;
  const [thin, dense] = response.range;
  return {
    status: 'ok',
    steps: patches.map(({ average, darkness, density }) => ({
      step: average.step,
      density: density.status === 'ok' ? density.value : null,
      standardError: density.status === 'ok' ? density.standardError : null,
      status: density.status,
      darkness: darkness.darkness,
      rejected: average.rejected,
      pixels: average.pixels,
    })),
    tablet: result.tablet.map(({ average, darkness, knownDensity, difference }) => ({
      step: average.step,
      density: knownDensity,
      darkness: darkness.darkness,
      difference,
    })),
    rows,
    form: response.form,
    exponent: response.exponent?.value ?? null,
    flare: response.flare?.value ?? null,
    tabletScatter: response.tabletScatter,
    lightSpan: light.span,
    curve: Array.from({ length: SAMPLES + 1 }, (_, k) => {
      const density = thin + ((dense - thin) * k) / SAMPLES;
      return { density, darkness: response.darknessAt(density) };
    }),
    warnings,
  };
}
