/** Words of the Callier factor that the reader measures. */
import { formatNumber } from '@wedgebook/charts';

export const callier = {
  title: 'Measure the factor of your own enlarger',
  way: 'By',
  ways: {
    times: 'times that print one grey',
    prints: 'two prints on one paper, one negative, two lights',
    papers: 'two papers, one negative, two lights',
  },
  how: {
    times:
      'Take patches of a negative whose diffuse densities you have read. Print each, with a test strip, until it gives the same middle grey; height and aperture stay. The factor is how fast log time grows with density.',
    prints:
      'Print one negative twice on the same paper: under your enlarger’s light, and under diffuse light (a sheet of opal between lamp and negative, or a contact print under an even lamp). Set the times so that the highlight comes out light grey and the shadow not quite black on both. Read the same two spots on each dry print. The curve of your paper tells what exposure each grey took; the factor is how much longer the range from spot to spot is under your light. Times do not count. The paper must print as hard as its strip did, under either lamp: take care with variable-contrast paper, which follows the colour of the light.',
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
    times:
      'Two patches whose densities differ by more than 0.05 give a factor. Three give its error too, roughly; five or more tell it well.',
    prints: 'The four print densities give the factor.',
    papers: 'Both exposure scales give the factor.',
  },
  prints: {
    own: { highlight: 'Your light: highlight', shadow: 'Your light: shadow' },
    diffuse: { highlight: 'Diffuse light: highlight', shadow: 'Diffuse light: shadow' },
    unit: 'print density',
    reading: 'Standard error of a reading',
    readingUnit: 'print density',
    onPaper: (paper: string) => `The greys are read off the curve of ${paper}.`,
    noPaper:
      'Choose above a paper that is known by a strip of your own: only its curve tells what exposure a grey took.',
    outside:
      'A spot is whiter or blacker than this paper’s curve goes, or a shadow is not darker than its highlight.',
  },
  measured: 'Callier factor Q',
  noError: 'No error can be told from so little.',
  impossible: (least: string, most: string) =>
    `No enlarger has less than ${least} or more than ${most}: look for a slip.`,
  unsure: 'It is too unsure to be of use: look for a slip, or measure more.',
  use: 'Use this factor',
  inUse: 'In use',
  taken: (factor: number, error: number | null) =>
    error === null
      ? `Callier factor ${formatNumber(factor, 3)} is in use, without an error.`
      : `Callier factor ${formatNumber(factor, 3)} ± ${formatNumber(error, 3)} is in use; its error counts in range, grade and minutes.`,
} as const;
