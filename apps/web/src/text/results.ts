/** Words of the curve sheet, the curve and the match. */
import {
  formatMinutes,
  formatNumber,
  formatScale,
  formatSigned,
  formatStops,
} from '@wedgebook/charts';
import type {
  CharacteristicCurve,
  CurveFamily,
  Estimate,
  FamiliesCompared,
  PaperFit,
} from '@wedgebook/core';
import type { BathView, ChosenPaper, NegativeEnds } from '../state/derive-bath.ts';
import { families } from './families.ts';
import { capital, gradeShort } from './phrases.ts';

export const sheetFigure = {
  title: (name: string) => `Characteristic curve of ${name}`,
  rulerTitle: 'The negative’s printing range against the paper',
  empty: 'No strip yet. Add one and type or paste its readings.',
  noCurve: 'Type or paste the readings of the strip: its curve is drawn as they come.',
  after: 'after the bath',
  before: 'before',
  afterMinutes: (minutes: number) => `after ${formatMinutes(minutes)}`,
  showOthers: 'Show the other strips',
  save: 'Save as SVG',
  fileName: 'curve-sheet.svg',
  verdict: ({ negative, match, prediction, missing }: BathView): string => {
    if (negative === null || match === null) return missing ?? 'Choose a negative.';
    const before = `${negative.name}: range ${formatNumber(match.printingRange.value, 2)}, ${gradeShort(match.paperGrade)}`;
    if (prediction === null) return unbroken(`${before}.`);
    const { after } = prediction;
    return unbroken(
      `${before}; after the bath ${formatNumber(after.printingRange.value, 2)}, ${gradeShort(after.paperGrade)}.`,
    );
  },
};

const MAY = {
  fits: 'fill the scale',
  'falls-short': 'fall short',
  overshoots: 'overshoot',
} as const;

/** Keeps a grade and its number on one line. */
const unbroken = (sentence: string): string => sentence.replaceAll(/grade (?=\d)/g, 'grade\u00a0');

export const curve = {
  title: 'Curve',
  says: (family: CurveFamily, curve: CharacteristicCurve) =>
    curve.residualStandardDeviation === null
      ? families[family].name
      : `${families[family].name}, readings scatter ±${formatNumber(curve.residualStandardDeviation, 3)} about it`,
  why: {
    'too-few-readings': 'A curve needs at least four different steps with readings.',
    'no-density-rise': 'The densities hardly rise: there is no curve to fit.',
    'fit-failed': 'The fit failed on these readings. Try another family, or check the steps.',
  },
  families,
  paperFollows: (family: CurveFamily) =>
    `A paper strip follows the family that fits it best until you choose another: here ${families[family].name}. Families that fit nearly as well widen its errors.`,
  smoothFollows:
    'These readings miss a curve with toe and shoulder by more than their scatter, so that a smooth curve stands in its place until you choose another. The two apart widen every error.',
  rivals: 'Families of curves on these readings',
  family: 'family',
  scatter: 'scatter (density)',
  parameters: 'para\u00ADmeters',
  difference: 'ΔAICc',
  weight: 'weight',
  noFit: 'no fit',
  verdict: (verdict: FamiliesCompared['verdict'], { best }: FamiliesCompared): string => {
    switch (verdict) {
      case 'best':
        return 'No rival describes these readings better.';
      case 'as-good':
        return `${capital(best === null ? 'a rival' : families[best].name)} does as well, by less than means anything; the family in use is kept.`;
      case 'rival-better':
        return `${capital(best === null ? 'a rival' : families[best].name)} describes these readings better. Compare the measures before you change.`;
      case 'not-comparable':
        return 'This curve follows the readings and has no errors to compare.';
    }
  },
  criterion:
    'Scatter is the standard deviation of the readings about the curve. ΔAICc weighs scatter against the number of parameters, those left out that the readings do not determine: under 2 means nothing, over 10 no support.',
};

export const match = {
  title: 'Match',
  negative: 'Negative',
  chooseNegative: 'choose a negative',
  newNegative: '+ New negative',
  noNegative: 'Choose a negative, or add one, to see which grade it calls for.',
  noSpots:
    'Read the thinnest part that must show detail (shadow) and the densest (highlight), or type a range.',
  sameDensity:
    'Shadow and highlight have the same density, so there is no range to print. Read them again.',
  turned:
    'The highlight reads thinner than the shadow. On a negative the highlight is the denser spot: exchange the two.',
  assumedShadow: 'shadow, placed at net 0.10',
  assumedHighlight: 'highlight',
  says: ({ match }: BathView) =>
    match === null ? 'nothing to match yet' : `calls for ${gradeShort(match.paperGrade)}`,
  strip: 'Lies on the curve of',
  noStrip: 'no strip',
  baseFog: 'Its base + fog',
  baseFogUnit: (ends: NegativeEnds | null) =>
    ends?.baseFogSource === 'strip' && ends.baseFog !== null
      ? `density (${formatNumber(ends.baseFog, 2)} from the strip)`
      : 'density',
  spots: 'Readings on the negative',
  removeNegative: 'Remove this negative',
  removePaper: 'Remove this paper',
  removed: (name: string) => `${name} removed. Undo brings it back.`,
  negativeAdded: (name: string) => `${name} added. Type its shadow and highlight readings.`,
  paperAdded: (name: string) => `${name} added. Say how it is known.`,
  spotAdded: (name: string, density: string) => `${name} ${density} added.`,
  spot: 'spot',
  role: 'prints as',
  density: 'density',
  densityUnit: 'density',
  removeHead: 'remove',
  spotName: 'Name of the spot',
  roleOf: (name: string) => `What ${name} prints as`,
  densityOf: (name: string) => `Density of ${name}`,
  remove: 'Remove',
  removeSpot: (name: string) => `Remove ${name}`,
  roles: { shadow: 'shadow', highlight: 'highlight', other: 'neither' },
  add: { shadow: 'Add a shadow reading', highlight: 'Add a highlight reading' },
  rangeOnly: 'or its density range alone',
  paperAndLight: 'Paper and light',
  paper: 'Paper',
  gradedPaper: 'graded paper, by its number',
  gradeOnShelf: 'Grade',
  gradeLabel: (grade: number) => `grade ${grade}`,
  newPaper: '+ Own paper',
  known: 'Known by',
  sources: {
    'iso-range': 'its ISO range',
    strip: 'a strip of my own',
    strips: 'strips at several settings',
    'grade-table': 'its grade',
  },
  settings: {
    says: 'One strip for each grade or filter setting. Where a strip was exposed through a soft or a hard filter, or both, give the seconds of each: split exposures follow from them. All strips at one height and aperture of the enlarger.',
    add: '+ Setting',
    setting: 'setting',
    soft: 'soft light',
    hard: 'hard light',
    removeRow: (row: number) => `Remove setting ${row}`,
  },
  isoRange: 'ISO range',
  paperStrip: 'Strip',
  grade: 'Grade',
  table: 'Grade table',
  light: 'Enlarger light',
  ownLight: 'own factor',
  callier: 'Callier factor Q',
  callierUnit: '(printing density / diffuse density)',
  callierError: 'Its standard error',
  callierErrorUnit: 'where you measured it',
  noPaperScale:
    'This paper has no exposure scale yet: name a strip that reaches white and black, or type its ISO range.',
  paperSays: ({ label, exposureScale, interval, origin }: ChosenPaper): string => {
    const name = origin === 'iso-range' || origin === 'strip' ? label : capital(label);
    const scale = `${name}: exposure scale ${formatScale(exposureScale.value)} (${formatStops(exposureScale.value)})`;
    if (interval === null || origin === 'strip') return `${scale}, from your strip.`;
    const from = `${formatNumber(interval[0], 2)} to ${formatNumber(interval[1], 2)}`;
    return origin === 'iso-range'
      ? `${scale}; the rounded ISO range allows ${from}.`
      : `${scale}, the middle of its band ${from}.`;
  },
  densityRange: 'Density range',
  densityRangeOf: ({ shadow, highlight, rangeOnly }: NegativeEnds) =>
    rangeOnly
      ? 'as typed'
      : `${shadow.name} ${formatNumber(shadow.density, 2)} to ${highlight.name} ${formatNumber(highlight.density, 2)}`,
  printingRange: 'Printing range',
  printingRangeOf: ({ value, standardError }: Estimate) => {
    if (standardError !== null) {
      return `log₁₀, with Q ${formatNumber(value, 2)} ± ${formatNumber(standardError, 3)}, its error counted`;
    }
    return value === 1
      ? 'log₁₀, as diffuse light sees it'
      : `log₁₀, with Q ${formatNumber(value, 2)}`;
  },
  isoRangeWanted: 'ISO range wanted',
  exactly: ({ value, standardError }: Estimate) =>
    `exactly ${formatNumber(value, 1)}${standardError === null ? '' : ` ± ${formatNumber(standardError, 1)}`}`,
  gradeWanted: 'Paper grade',
  onPaper: (label: string) => `On “${label}”`,
  verdicts: { fits: 'fills the scale', 'falls-short': 'falls short', overshoots: 'overshoots' },
  differenceOf: ({ difference, differenceStops, verdict, verdictsWithin }: PaperFit) => {
    const { value, standardError } = difference;
    const error = standardError === null ? '' : ` ± ${formatNumber(standardError, 2)}`;
    const others = verdictsWithin.filter((each) => each !== verdict).map((each) => MAY[each]);
    const may =
      others.length === 0 ? '' : `; within its error (95 %) it may ${others.join(' or ')}`;
    return `${formatSigned(value, 2)}${error} log₁₀ = ${formatSigned(differenceStops, 1)} stops${may}`;
  },
};
