/** Words of the tone chain. */
import { formatNumber } from '@wedgebook/charts';
import type { LosingStage, SubjectTone, UsefulSubjectRange } from '@wedgebook/core';

const stages: Readonly<Record<LosingStage, string>> = {
  'camera-flare': 'flare of the camera',
  film: 'the film',
  treatment: 'the bath',
  'enlarger-flare': 'stray light of the enlarger',
  paper: 'the paper',
};

export const chain = {
  title: 'From the subject to the print',
  says: 'Subject, camera flare, film, bath, enlarger and paper as one chain. Both prints are on the paper in use, the highlight of the negative held.',
  noFilm:
    'Say under Match which strip the negative lies on: its curve ties the densities of the negative to the subject.',
  'shadow-off-curve': 'The shadow’s density lies outside the curve of the strip.',
  'highlight-off-paper': 'The paper does not reach the density wanted in the highlight.',
  shadowZone: 'The negative’s shadow is zone',
  cameraFlare: 'Camera flare',
  flareUnit: '× (range without it over range with it)',
  subjectRange: 'Subject range',
  stops: 'stops',
  follow: 'Tone followed, zone',
  diagram: 'Four quadrants',
  before: 'before the bath',
  after: 'after the bath',
  ladder: 'Zones in the print',
  ladderHow: 'The number is lightness L*, 100 for a perfect white.',
  ladderDetail: (exposureScale: number) => `paper of R ${formatNumber(100 * exposureScale, 0)}`,
  range: (label: string, range: UsefulSubjectRange): string => {
    if (range.status === 'none') return `${label}: no tones part.`;
    const parts = `${label}: ${formatNumber(range.stops, 1)} stops of the subject part in the print by 2 L* a stop or more`;
    const [dark, light] = [range.shadow.lostTo, range.highlight.lostTo];
    if (dark !== null && dark === light) {
      return `${parts}; darker and lighter ones are lost to ${stages[dark]}.`;
    }
    const end = (lostTo: LosingStage | null): string =>
      lostTo === null ? 'not within the range drawn' : `to ${stages[lostTo]}`;
    return `${parts}; darker ones are lost ${end(dark)}, lighter ones ${end(light)}.`;
  },
  table: 'Gradients of the tone followed',
  stage: 'stage',
  stages: {
    cameraFlare: 'camera flare',
    film: 'film',
    treatment: 'bath',
    light: 'enlarger light',
    enlargerFlare: 'stray light',
    paper: 'paper',
  },
  product: 'subject to print, all multiplied',
  onNegative: 'negative density',
  reaches: 'print density',
  gradient: 'gradient',
  zone: 'Zone',
  zoneTable: 'Every zone in figures',
  errorsFrom:
    'Errors come from the curves of film and paper, with the shadow of the negative and the highlight of the print held; those of the bath are not counted, and errors under 0.0005 in density are not shown. The gradient is that of the whole chain, print density by log luminance.',
  lightness: 'lightness L*',
  extrapolated: 'Outside the readings of the film strip.',
  gradients: (tone: SubjectTone) => tone.gradients,
};
