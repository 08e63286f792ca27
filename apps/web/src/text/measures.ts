/** Names, units and definitions of the measures. */
import { FEWEST_FOR_SLIPS } from '@wedgebook/core';

export const measures = {
  title: 'Measures',
  none: 'No measures yet: they follow from the curve.',
  noSlips: {
    'too-few-readings': (count: number) =>
      `Slips of reading are looked for from ${FEWEST_FOR_SLIPS} readings on; here are ${count}.`,
    'drawn-curve': () =>
      'Slips of reading are not looked for: a curve through every reading leaves nothing to judge one by.',
  },
  density: 'density',
  logUnits: 'log₁₀ units',
  logExposure: { absolute: 'log₁₀ lx·s', relative: 'log₁₀, relative' },
  baseFog: {
    name: 'Base + fog',
    unit: 'density',
    definition:
      'Density of the unexposed material: the curve’s lower end. Unexposed readings, where there are any, are part of the fit.',
  },
  densityMax: {
    name: 'Greatest density',
    unit: 'density',
    definition: 'Density of the curve at the greatest exposure read.',
  },
  speedPoint: {
    name: 'Speed point',
    definition: 'Where the curve is 0.10 above base + fog (ISO 6).',
  },
  isoSpeed: {
    name: 'ISO speed',
    definition: (exact: string, error: string | null) =>
      `0.8 / exposure of the speed point, rounded through degrees (ISO 6); unrounded ${exact}${error === null ? '' : `\u00a0±\u00a0${error}`}. The contrast condition is met.`,
  },
  exposureIndex: {
    name: 'Exposure index',
    definition: (exact: string, error: string | null) =>
      `0.8 / exposure of the speed point; unrounded ${exact}${error === null ? '' : `\u00a0±\u00a0${error}`}. Not an ISO speed: the contrast condition is not met.`,
  },
  isoTriangle: {
    name: 'Rise over +1.30',
    definition: (met: boolean) =>
      `Density gained from the speed point over 1.30 log exposure; ISO 6 asks for 0.80\u00a0±\u00a00.05: ${met ? 'met' : 'not met'}.`,
  },
  contrastIndex: {
    name: 'Contrast index',
    unit: '',
    definition:
      'Slope of the line through a centre on base + fog and the curve points 0.2 and 2.2 away from it (Niederpruem, Nelson and Yule 1966).',
  },
  averageGradient: {
    name: (to: string) => `Average gradient, ${to}`,
    definition: (from: string, to: string) =>
      `Slope of the chord from ${from} to ${to} log exposure.`,
  },
  gamma: {
    name: 'Gamma',
    unit: '',
    definition: 'Greatest sustained slope of the fitted curve.',
  },
  inertia: {
    name: 'Inertia',
    definition: 'Where the steepest tangent meets base + fog (Hurter and Driffield 1890).',
  },
  usefulRange: {
    name: 'Useful range',
    definition: (atLeast: boolean) =>
      `From the speed point to where the slope falls to 0.3 of gamma${atLeast ? '; the readings end before that' : ''}.`,
  },
  fractional: {
    name: 'Fractional-gradient speed',
    unit: '',
    definition:
      'From the speed point and the rise over +1.30 (Nelson and Simonds 1956); coefficients from memory, unverified.',
  },
  hurterDriffield: {
    name: 'H&D speed',
    unit: '',
    definition:
      '34 / inertia, in candle-metre-seconds: the old plate speed, not comparable with ISO.',
  },
  paperMin: {
    name: 'Paper white',
    unit: 'reflection density',
    definition: 'Lower end of the curve.',
  },
  paperMax: { name: 'Greatest black', unit: 'reflection density', definition: '' },
  paperMaxBasis: {
    asymptote: 'The curve’s upper end, which the strip reaches.',
    'highest-reading':
      'The density at the greatest exposure: the strip does not settle the curve’s end.',
  },
  exposureScale: {
    name: 'Exposure scale',
    unit: 'log₁₀ units',
    definition: 'From net density 0.04 to 90 % of the net maximum (ISO 6846).',
  },
  isoRange: {
    name: 'ISO range',
    definition: (exact: string) =>
      `100 × exposure scale to the nearest 10 (ISO 6846); unrounded ${exact}.`,
  },
  paperSpeed: {
    name: 'ISO paper speed',
    definition: (exact: string, error: string | null) =>
      `1000 / Hm at net density 0.60 (ISO 6846); unrounded ${exact}${error === null ? '' : `\u00a0±\u00a0${error}`}.`,
  },
  paperGrade: {
    name: 'Paper grade',
    definition: 'Grade whose band holds the exposure scale, by the chosen table.',
  },
  paperGradient: {
    name: 'Average gradient',
    unit: '',
    definition: 'Slope of the chord over the exposure scale.',
  },
  greatestGradient: {
    name: 'Greatest gradient',
    unit: '',
    definition: 'Steepest slope of the curve.',
  },
};
