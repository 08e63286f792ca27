/** Words of the Callier factor that the reader measures. */
import { formatNumber } from '@wedgebook/charts';

export const callier = {
  title: 'Measure the factor of your own enlarger',
  way: 'By',
  ways: {
    times: 'times that print one grey',
    papers: 'two papers, one negative, two lights',
  },
  how: {
    times:
      'Take patches of a negative whose diffuse densities you have read. Print each, with a test strip, until it gives the same middle grey; height and aperture stay. The factor is how fast log time grows with density.',
    papers:
      'Find the paper or setting on which one negative prints best under your enlarger’s light, and the one on which it prints alike under diffuse light (a sheet of opal between lamp and negative, or a contact print under an even lamp). The factor is the ratio of their exposure scales.',
  },
  density: (patch: number) => `Density of patch ${patch}`,
  seconds: (patch: number) => `Time of patch ${patch}`,
  secondsUnit: 's',
  another: 'Another patch',
  scales: ['Exposure scale under your light', 'Exposure scale under diffuse light'],
  scaleUnit: 'log₁₀ (ISO range / 100)',
  missing: {
    times: 'Two patches whose densities differ by more than 0.05 give a factor, three its error.',
    papers: 'Both exposure scales give the factor.',
  },
  measured: 'Callier factor Q',
  noError: 'No error can be told from so little.',
  impossible: (least: string, most: string) =>
    `No enlarger has less than ${least} or more than ${most}: look for a slip.`,
  use: 'Use this factor',
  inUse: 'In use',
  taken: (factor: number) => `Callier factor ${formatNumber(factor, 3)} is in use.`,
} as const;
