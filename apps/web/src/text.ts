/**
 * Every word that the app shows, except the sentences of warnings, which the notebook package
 * words for the app and the command alike, and the labels inside drawings.
 */
import { formatMinutes, formatNumber, formatSigned, formatStops } from '@wedgebook/charts';
import type {
  CharacteristicCurve,
  CurveFamily,
  FamiliesCompared,
  FittedLaw,
  Known,
  PaperGrade,
  SeleniumDefaults,
  Sensitivity,
  TreatmentModel,
  TreatmentPlan,
} from '@wedgebook/core';
import type { Plan, Strip } from '@wedgebook/notebook';
import type { BathView, ChosenPaper, NegativeEnds } from './state/derive-bath.ts';
import type { PasteResult } from './worksheet/block-commands.ts';
import type { BlockColumn, PastedBlock } from './worksheet/parse-block.ts';

const plural = (count: number, one: string, many = `${one}s`) =>
  `${count} ${count === 1 ? one : many}`;

const families: Readonly<Record<CurveFamily, { name: string; about: string }>> = {
  'toe-shoulder': {
    name: 'toe and shoulder',
    about:
      'A toe, a straight part and, where the readings reach it, a shoulder. In simulated strips with known truth it gave the steadiest speed points and gradients, so it is used unless you choose another.',
  },
  'logistic-4': {
    name: 'logistic, 4 parameters',
    about:
      'A symmetrical S. It has no straight part of its own and bends where a film is still straight, so speed points come out poorly; kept as a second opinion.',
  },
  'logistic-5': {
    name: 'logistic, 5 parameters',
    about:
      'An S whose toe and shoulder may differ. Close to toe and shoulder on full-length strips.',
  },
  'hurter-driffield': {
    name: 'Hurter and Driffield, 1890',
    about:
      'The first formula of a plate, from the idea of one silver grain after another being struck.',
  },
  'monotone-smooth': {
    name: 'smooth curve',
    about:
      'A rising curve of no formula, as smooth as the readings allow. For two emulsions, masks and whatever else fits no family.',
  },
  'as-drawn': {
    name: 'as drawn through the readings',
    about:
      'Passes through every reading and repeats its error. Use it to draw a trusted table, not to measure contrast.',
  },
};

const gradeShort = ({ band, outside }: PaperGrade): string => {
  if (band !== null) return `grade ${band}`;
  return outside === 'softer' ? 'softer than any' : 'harder than any';
};

const gradeDetail = ({ continuous, outside }: PaperGrade): string => {
  if (continuous !== null) return `${formatNumber(continuous, 1)} on the table’s scale`;
  return outside === 'softer'
    ? 'the range is longer than any grade of the table'
    : 'the range is shorter than any grade of the table';
};

const bath = (partsWater: number, minutes: number, celsius: number): string =>
  `1+${formatNumber(partsWater, 1).replace(/\.0$/, '')}, ${formatMinutes(minutes)}, ${formatNumber(celsius, 1).replace(/\.0$/, '')} °C`;

export const text = {
  none: '–',
  warnings: 'Warnings',
  standardError: 'standard error',
  families,
  gradeShort,
  gradeDetail,
  gradeLong: (grade: PaperGrade): string =>
    grade.continuous === null
      ? gradeShort(grade)
      : `${gradeShort(grade)} (${formatNumber(grade.continuous, 1)})`,
  bath,
  units: { density: 'density', transmittance: 'transmittance', stops: 'stops' },
  names: {
    strip: 'strip',
    tonedStrip: 'toned strip',
    paperStrip: 'paper strip',
    negative: 'negative',
    paper: 'paper',
    ownTablet: (steps: number, number: number) => `own tablet ${number}, ${steps} steps`,
  },
  source: {
    verified: 'verified',
    unverified: 'unverified',
    known: {
      published: 'published',
      derived: 'derived',
      practice: 'common practice',
      memory: 'from memory',
    } satisfies Record<Known, string>,
  },
  field: {
    slider: (label: string) => `${label}, slider`,
    readAs: (typed: string, value: number, unit: string) =>
      `${typed} was read as ${value} ${unit}.`,
  },
  wrong: {
    empty: 'A number is needed here; the last good one is still in use.',
    notANumber: (typed: string) =>
      `“${typed}” is not a number. Type digits with a point or a comma, or leave the cell empty.`,
    transmittance: (typed: string) =>
      `“${typed}” is no transmittance: type a part above 0 such as 0.25, or per cent such as 25 %.`,
    density: (typed: string, limits: { lowest: number; highest: number }) =>
      `“${typed}” is outside ${formatNumber(limits.lowest, 1)} to ${limits.highest}, which no film gives. Check the decimal point and the unit.`,
    outside: (typed: string, min: number, max: number, unit: string) =>
      Number.isFinite(min) && Number.isFinite(max)
        ? `“${typed}” is not used: ${formatNumber(min, 2)} to ${formatNumber(max, 2)} ${unit} can be. The last good value is still in use.`
        : `“${typed}” cannot be used here. The last good value is still in use.`,
    tabletCell: (typed: string, number: number) =>
      `Entry ${number}, “${typed}”, is not a density. Separate the densities by spaces, line breaks or semicolons.`,
    tabletShort: 'A tablet has at least four steps: type their densities, clear end first.',
  },
  chart: { table: 'The same figures as a table' },
  storage: {
    setAside: (why: string) =>
      `The notebook kept in this browser could not be opened (${why}). It was set aside, not deleted, and the demonstration notebook is shown.`,
    cannotSave: (why: string) =>
      `The notebook cannot be kept in this browser (${why}). Export it to a file now, so that nothing is lost.`,
  },
  sheet: {
    caption: (name: string) => `Readings of ${name}`,
    step: 'step',
    exposure: 'log exposure',
    exposureUnit: { relative: 'relative', absolute: 'lx·s' },
    reading: (number: number) => `reading ${number}`,
    off: 'off curve',
    offLong: 'Mean reading less the fitted curve',
    baseFog: 'base + fog',
    unexposed: 'unexposed',
    stepNumber: (step: number) => `Step ${step}`,
    cell: (row: string, number: number) => `${row}, reading ${number}`,
    exposureCell: (row: string) => `${row}, own log exposure`,
    pasted: ({ rows, readings, wrong }: PasteResult, block: PastedBlock): string => {
      const taken = describeColumns(block);
      const parts = [
        `Pasted ${plural(readings, 'reading')} in ${plural(rows, 'row')}${block.turned ? ', turned from across to down' : ''}.`,
        `Columns taken as: ${taken}.`,
      ];
      if (wrong > 0) {
        parts.push(
          `${plural(wrong, 'cell')} cannot be read and ${wrong === 1 ? 'is' : 'are'} kept as pasted.`,
        );
      }
      return `${parts.join(' ')} Undo takes it back.`;
    },
  },
  readings: {
    title: 'Readings',
    none: 'no strip yet',
    rack: 'Strips',
    newStrip: '+ New strip',
    newTreated: '+ Its toned twin',
    newPaperStrip: '+ Paper strip',
    says: (read: number, steps: number, unexposed: number) =>
      `${read} of ${plural(steps, 'step')} read, ${unexposed === 0 ? 'base + fog not read' : `base + fog read ${unexposed === 1 ? 'once' : `${unexposed} times`}`}`,
    facts: ({ material, development, treatment }: Strip): string => {
      if (treatment !== null) {
        return `toned ${bath(treatment.partsWater, treatment.minutes, treatment.celsius)}`;
      }
      if (material === 'paper') return 'paper';
      return development === null
        ? 'film'
        : `developed ${formatMinutes(development.minutes)}, ${formatNumber(development.celsius, 0)} °C`;
    },
    name: 'Name',
    unit: 'Readings in',
    details: (strip: Strip, tablet: string) =>
      `${tablet}; ${strip.exposure.kind === 'absolute' ? 'calibrated light' : 'relative exposure'}${strip.treatment === null ? '' : `; toned ${bath(strip.treatment.partsWater, strip.treatment.minutes, strip.treatment.celsius)}`}: change`,
    pasteHint:
      'Type a column and press Enter, or paste a block from a spreadsheet: rows or columns, with or without a header, decimal point or comma.',
    addStep: 'Add a step',
    addReplicate: 'Add a reading column',
    reverse: 'Turn the readings end for end',
    remove: 'Remove this strip',
    kept: (count: number) =>
      `${plural(count, 'entry', 'entries')} of this strip cannot be read. ${count === 1 ? 'It is' : 'They are'} kept as typed and take no part until mended.`,
    withoutExposure: (steps: readonly number[]) =>
      `${steps.length === 1 ? 'Step' : 'Steps'} ${steps.slice(0, 8).join(', ')}${steps.length > 8 ? ' …' : ''} have readings but no exposure: the tablet does not have them. Choose another tablet, or type their log exposures.`,
    tablet: 'Step tablet',
    noTablet: 'no tablet: own log exposures',
    exposure: 'Exposure',
    relative: 'relative (light not calibrated)',
    absolute: 'calibrated: log₁₀ lx·s known',
    source: 'Log exposure without the tablet',
    sourceUnit: 'log₁₀ lx·s',
    developed: 'Developed',
    developedAt: 'at',
    partner: 'Compared with',
    noPartner: 'no untreated strip',
    ownTablet: 'Enter the calibrated densities of your own tablet',
    ownTabletHint: 'Densities from the clear end, separated by spaces or lines',
    useTablet: 'Use this tablet',
    tabletAdded: (name: string) => `${name} added and used for this strip.`,
    added: (name: string) => `${name} added. Type its readings.`,
    removed: (name: string) => `${name} removed. Undo brings it back.`,
  },
  sheetFigure: {
    title: (name: string) => `Characteristic curve of ${name}`,
    rulerTitle: 'The negative’s printing range against the paper',
    empty: 'No strip yet. Add one and type or paste its readings.',
    after: 'after the bath',
    before: 'before',
    afterMinutes: (minutes: number) => `after ${formatMinutes(minutes)}`,
    showOthers: 'Show the other strips',
    save: 'Save as SVG',
    fileName: 'curve-sheet.svg',
    verdict: ({ negative, match, prediction, missing }: BathView): string => {
      if (negative === null || match === null) return missing ?? 'Choose a negative.';
      const before = `${negative.name}: range ${formatNumber(match.printingRange.value, 2)}, ${gradeShort(match.paperGrade)}`;
      if (prediction === null) return `${before}.`;
      const { after } = prediction;
      return `${before}; after the bath ${formatNumber(after.printingRange.value, 2)}, ${gradeShort(after.paperGrade)}.`;
    },
  },
  curve: {
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
    rivals: 'Families of curves on these readings',
    family: 'family',
    scatter: 'scatter (density)',
    parameters: 'parameters',
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
      'Scatter is the standard deviation of the readings about the curve. ΔAICc weighs scatter against the number of parameters: under 2 means nothing, over 10 no support.',
  },
  measures: {
    title: 'Measures',
    none: 'No measures yet: they follow from the curve.',
    density: 'density',
    logUnits: 'log₁₀ units',
    baseFog: {
      name: 'Base + fog',
      unit: 'density',
      definition:
        'Density of the unexposed material: the curve’s lower end, with the unexposed readings in the fit.',
    },
    densityMax: {
      name: 'Greatest density',
      unit: 'density',
      definition: 'Density of the curve at the greatest exposure read.',
    },
    speedPoint: {
      name: 'Speed point',
      unit: 'log exposure',
      definition: 'Where the curve is 0.10 above base + fog (ISO 6).',
    },
    isoSpeed: {
      name: 'ISO speed',
      definition: (exact: string, error: string | null) =>
        `0.8 / Hm, rounded through degrees (ISO 6); unrounded ${exact}${error === null ? '' : ` ± ${error}`}. The contrast condition is met.`,
    },
    exposureIndex: {
      name: 'Exposure index',
      definition: (exact: string, error: string | null) =>
        `0.8 / Hm; unrounded ${exact}${error === null ? '' : ` ± ${error}`}. Not an ISO speed: the contrast condition is not met.`,
    },
    isoTriangle: {
      name: 'Rise over +1.30',
      definition: (met: boolean) =>
        `Density gained from the speed point over 1.30 log exposure; ISO 6 asks for 0.80 ± 0.05: ${met ? 'met' : 'not met'}.`,
    },
    contrastIndex: {
      name: 'Contrast index',
      unit: '',
      definition:
        'Slope of the line through a centre on base + fog and the curve points 0.2 and 2.2 away from it (Niederpruem, Nelson and Yule 1966).',
    },
    averageGradient: {
      name: 'Average gradient',
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
      unit: 'log exposure',
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
      definition: (exact: string) =>
        `1000 / Hm at net density 0.60 (ISO 6846); unrounded ${exact}.`,
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
  },
  match: {
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
      'grade-table': 'its grade',
    },
    isoRange: 'ISO range',
    paperStrip: 'Strip',
    grade: 'Grade',
    table: 'Grade table',
    light: 'Enlarger light',
    ownLight: 'own factor',
    callier: 'Callier factor Q',
    callierUnit: '(printing density / diffuse density)',
    noPaperScale:
      'This paper has no exposure scale yet: name a strip that reaches white and black, or type its ISO range.',
    paperSays: ({ label, exposureScale, interval, origin }: ChosenPaper): string => {
      const scale = `${label}: exposure scale ${formatNumber(exposureScale.value, 2)} (${formatStops(exposureScale.value)})`;
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
    printingRangeOf: (callier: number) =>
      callier === 1
        ? 'log₁₀, as diffuse light sees it'
        : `log₁₀, with Q ${formatNumber(callier, 2)}`,
    isoRangeWanted: 'ISO range wanted',
    exactly: (value: string) => `exactly ${value}`,
    gradeWanted: 'Paper grade',
    onPaper: (label: string) => `On ${label}`,
    verdicts: { fits: 'fills the scale', 'falls-short': 'falls short', overshoots: 'overshoots' },
    differenceOf: (log: string, stops: string) => `${log} log₁₀ = ${stops} stops`,
  },
  treatment: {
    title: 'Treatment',
    noNegative: 'Choose a negative above to see it before and after the bath.',
    says: (model: TreatmentModel) =>
      model.origin === 'fitted'
        ? `fitted to ${plural(model.treated.length, 'toned strip')} of yours`
        : 'built-in model: no toned strip of yours yet',
    dilution: 'Dilution, concentrate + water',
    minutes: 'Minutes in the bath',
    temperature: 'Temperature',
    temperatureHint: 'Other units may be typed out, such as 68 degF.',
    usual: ({ partsWater, minutes, celsius }: SeleniumDefaults['practice']) =>
      `Usual: 1+${partsWater.usual[0]} to 1+${partsWater.usual[1]}, ${minutes.usual[0]} to ${minutes.usual[1]} min, ${celsius.usual[0]} to ${celsius.usual[1]} °C.`,
    stainTitle: ({ stain }: Plan) =>
      stain > 0
        ? `Image stain: ${formatNumber(stain, 2)} per unit of silver density`
        : 'Staining developer? Image stain',
    stain: 'Stain density per silver density',
    stainUnit: 'in the paper’s channel',
    stainKept: 'Part of it that the bath leaves',
    stainKeptUnit: '0 to 1',
    stainHint: 'The bath may take the stain away, and the contrast that it gave with it.',
    cautions: 'Before you open the bottle',
    severity: { danger: 'danger', loss: 'loss' },
    beforeAfter: 'The negative before and after the bath',
    quantity: 'quantity',
    before: 'before',
    after: 'after the bath',
    gain: 'Gain',
    completion: 'Completion',
    plausible: (
      gain: readonly [number, number],
      range: readonly [number, number],
      origin: TreatmentModel['origin'],
    ) =>
      `The gain may well lie between ×${formatNumber(gain[0], 2)} and ×${formatNumber(gain[1], 2)}, the density range after it between ${formatNumber(range[0], 2)} and ${formatNumber(range[1], 2)}${origin === 'default' ? ': built-in numbers, so treat a scrap first' : ''}.`,
    targetTitle: 'Aim for a grade',
    target: 'Grade to reach',
    usePlan: (minutes: number) => `Use ${formatMinutes(Math.round(minutes * 4) / 4)}`,
    targetLabel: (minutes: number) => `aim ${formatMinutes(minutes)}`,
    planSays: (plan: TreatmentPlan, grade: number): string => {
      const { reason, aim, minutes, completion, gainNeeded, maximumGain, prediction } = plan;
      const needed = `×${formatNumber(gainNeeded, 2)}`;
      const most = `×${formatNumber(maximumGain.value, 2)}`;
      const after = `${formatNumber(prediction.after.printingRange.value, 2)}, ${gradeShort(prediction.after.paperGrade)}`;
      if (aim === 'already-there')
        return `The negative is at grade ${grade} already: no bath is needed.`;
      if (reason === 'needs-reduction') {
        return `Grade ${grade} cannot be reached: the range is too long for it already, and this bath only adds density. A softer paper or a reducer is the way.`;
      }
      if (reason === 'needs-more-gain') {
        return `Grade ${grade} cannot be reached: it needs a gain of ${needed}, and the bath gives at most ${most}. The most that can be had is ${after}, after ${formatMinutes(minutes)}.`;
      }
      const how =
        aim === 'in-band' ? 'as far into the band as the bath goes' : 'the middle of the band';
      return `Grade ${grade} is reached in ${formatMinutes(minutes)} (${formatNumber(100 * completion, 0)} % complete, gain ${needed}), ${how}: ${after}.`;
    },
    sensitivity: ({ perMinute, perDegree }: Sensitivity) =>
      `At the bath as set, one minute more changes the gain by ${formatSigned(perMinute, 3)}, one degree by ${formatSigned(perDegree, 3)}.`,
    completionTitle: 'Completion against minutes',
    plannedLabel: (plan: Plan) =>
      `1+${formatNumber(plan.partsWater, 1).replace(/\.0$/, '')}, ${formatNumber(plan.celsius, 1).replace(/\.0$/, '')} °C`,
    modelTitle: (model: TreatmentModel) =>
      model.origin === 'fitted'
        ? 'What your trials tell of this bath'
        : 'What is built in about this bath, and how it is known',
    modelTable: 'Parameters of the bath',
    parameters: {
      maximumGain: 'Greatest gain',
      halfDose: 'Half dose',
      concentrationExponent: 'Concentration exponent',
      temperatureCoefficient: 'Temperature coefficient',
    },
    parameter: 'parameter',
    value: 'value',
    unit: 'unit',
    origin: 'how it is known',
    fitted: 'fitted to your strips',
    law: ({ family, exponent, reason }: FittedLaw): string => {
      const name =
        family === 'proportional'
          ? 'Density grows in proportion to itself'
          : `Density grows by the ${family} law, exponent ${formatNumber(exponent.value, 2)}`;
      const why = {
        default: 'the plainest law, built in',
        plainest: 'no other law describes your pairs better',
        better: 'it describes your pairs markedly better than proportion',
        'too-few': 'too few pairs to tell laws apart',
        'asked-for': 'as asked for',
      }[reason];
      return `${name}: ${why}.`;
    },
    noTrials:
      'Two readings on a toned scrap of your own film replace the built-in gain: add “its toned twin” to a strip above.',
    trialsTable: 'Toned strips',
    trial: 'strip',
    bath: 'bath',
    pairs: 'pairs',
  },
  mixing: {
    title: 'Mixing sheet',
    volume: 'Working solution needed',
    placeholder: 'e.g. 1 l, 250 ml',
    hint: 'Type a volume with its unit; millilitres are meant without one.',
    says: (concentrate: string, water: string, total: string, partsWater: number) =>
      `${concentrate} ml concentrate + ${water} ml water = ${total} ml at 1+${formatNumber(partsWater, 1).replace(/\.0$/, '')}.`,
    wrong: (typed: string) => `“${typed}” is no volume. Type a number with ml, l or floz.`,
  },
  app: {
    name: 'Wedgebook',
    title: 'Title of the notebook',
    undo: 'Undo',
    redo: 'Redo',
    theme: 'Theme',
    themes: { system: 'as the system', light: 'light', dim: 'dim', darkroom: 'red on black' },
    export: 'Export',
    import: 'Import',
    empty: 'Start an empty notebook',
    demo: 'Open the demonstration notebook',
    print: 'Print',
    tools: 'Notebook',
    stations: 'Stations',
    skip: 'Skip to the readings',
    invented:
      'This is a demonstration: every reading in it is invented. Look round, change anything, or begin your own.',
    inventedTag: 'invented data',
    saved: (at: Date | null) => (at === null ? 'Not changed yet' : `Saved ${time(at)}`),
    exported: (at: Date | null) => (at === null ? 'never exported' : `exported ${day(at)}`),
    exportedNow: (file: string) => `Notebook exported as ${file}.`,
    emptied: 'An empty notebook. The one before comes back with Undo.',
    undone: 'Undone.',
    redone: 'Redone.',
    safelight:
      'Red on black is no safelight. Film needs total darkness; before you use any screen near paper, leave a pre-exposed piece beside it and look for fog.',
    footer:
      'Everything stays in this browser. Export now and then: browsers may clear what they keep.',
    importTitle: 'Replace this notebook?',
    importAsk: (title: string, counts: string) =>
      `“${title}” holds ${counts}. It will replace the notebook that is open; Undo brings that one back.`,
    importCounts: (strips: number, negatives: number, papers: number) =>
      `${plural(strips, 'strip')}, ${plural(negatives, 'negative')} and ${plural(papers, 'paper')}`,
    importMended: (count: number) =>
      `${plural(count, 'reference')} in the file ${count === 1 ? 'leads' : 'lead'} nowhere and will be emptied.`,
    importYes: 'Replace',
    importNo: 'Keep the present one',
    imported: (title: string) => `“${title}” opened. Undo brings the notebook before it back.`,
    importFailed: (why: string) => `The file was not opened; nothing was changed. ${why}`,
    fileName: (title: string, date: Date) =>
      `${
        title
          .trim()
          .toLowerCase()
          .replace(/[^\p{L}\p{N}]+/gu, '-')
          .replace(/^-|-$/g, '') || 'notebook'
      }-${date.toISOString().slice(0, 10)}.json`,
  },
};

function capital(sentence: string): string {
  return sentence.charAt(0).toUpperCase() + sentence.slice(1);
}

function time(date: Date): string {
  const sameDay = date.toDateString() === new Date().toDateString();
  const clock = date.toLocaleTimeString([], { hour: '2-digit', minute: '2-digit' });
  return sameDay ? clock : `${day(date)}, ${clock}`;
}

function day(date: Date): string {
  return date.toLocaleDateString([], { year: 'numeric', month: 'short', day: 'numeric' });
}

const COLUMN_WORDS: Readonly<Record<BlockColumn, string>> = {
  step: 'step',
  'tablet-density': 'tablet density',
  'log-exposure': 'log exposure',
  reading: 'reading',
  ignored: 'left out',
};

function describeColumns({ columns, heads }: PastedBlock): string {
  return columns
    .map((kind, index) => {
      const head = heads[index] ?? '';
      return head === '' ? COLUMN_WORDS[kind] : `“${head}” ${COLUMN_WORDS[kind]}`;
    })
    .join(', ');
}
