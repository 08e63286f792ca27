/** Words of the bath and the mixing sheet. */
import { formatMinutes, formatNumber, formatSigned } from '@wedgebook/charts';
import type {
  FittedLaw,
  NextTrial,
  SeleniumDefaults,
  Sensitivity,
  TreatmentModel,
  TreatmentPlan,
  TreatmentTarget,
} from '@wedgebook/core';
import type { MixedVolume, MixingSheet } from '@wedgebook/core/quantities';
import type { HeldParameters, Plan, TargetKind } from '@wedgebook/notebook';
import { bath, gradeShort, plural, trimmed } from './phrases.ts';

export const treatment = {
  title: 'Treatment',
  planNeedsNegative: 'The minutes stand here once a negative is chosen.',
  noNegative: 'Choose a negative above to see it before and after the bath.',
  says: (model: TreatmentModel) =>
    model.origin === 'fitted'
      ? `fitted to ${plural(model.treated.length, 'toned strip')} of yours`
      : 'built-in model: no toned strip of yours yet',
  dilution: 'Dilution, concentrate + water',
  minutes: 'Minutes in the bath',
  temperature: 'Temperature',
  typedHint: 'Other units may be typed out: 68 °F, 6:30, 1+3.',
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
  gradesWithin: 'Grades its error allows (95 %)',
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
  targetTitle: 'Plan backwards from an aim',
  targetKind: 'Aim for',
  targetKinds: {
    grade: 'a grade of paper',
    paper: 'the scale of the paper above',
    range: 'a density range',
  } satisfies Record<TargetKind, string>,
  target: 'Grade to reach',
  targetRange: 'Density range to reach',
  noTarget: {
    grade: 'The grade table has no such grade.',
    paper: 'Choose a paper of your own above: the bath is then planned for its exposure scale.',
    range: 'Type the density range that the negative should have after the bath.',
  } satisfies Record<TargetKind, string>,
  goalShort: (target: TreatmentTarget | null): string => {
    if (target === null) return 'none';
    if ('grade' in target) return `grade ${target.grade}`;
    return 'printingRange' in target ? 'scale of the paper' : 'density range';
  },
  /** Where the clock's quarters differ from the plan as it is told, the button says so. */
  usePlan: (quarter: number, planned: number) =>
    formatMinutes(quarter) === formatMinutes(planned)
      ? `Use ${formatMinutes(quarter)}`
      : `Use ${formatMinutes(quarter)}, rounded`,
  targetLabel: (minutes: number) => `aim ${formatMinutes(minutes)}`,
  planSays: (plan: TreatmentPlan, target: TreatmentTarget): string => {
    const { reason, aim, minutes, completion, gainNeeded, maximumGain, prediction } = plan;
    const needed = `×${formatNumber(gainNeeded, 2)}`;
    const most = `×${formatNumber(maximumGain.value, 2)}`;
    const { after: then } = prediction;
    const range = 'densityRange' in target ? then.densityRange : then.printingRange;
    const after = `${formatNumber(range.value, 2)}, ${gradeShort(then.paperGrade)}`;
    const goal = goalText(target);
    if (aim === 'already-there') return `The negative is at ${goal} already: no bath is needed.`;
    if (reason === 'needs-reduction') {
      return `Not reachable: ${goal} is shorter than the negative is already, and this bath only adds density. A softer paper or a reducer is the way.`;
    }
    if (reason === 'needs-more-gain') {
      return `Not reachable: ${goal} needs a gain of ${needed}, and the bath gives at most ${most}. The most that can be had is ${after}, after ${formatMinutes(minutes)}.`;
    }
    const how =
      aim === 'in-band'
        ? ', as far into the band as the bath goes'
        : aim === 'band-middle'
          ? ', the middle of the band'
          : '';
    return `${goal.charAt(0).toUpperCase()}${goal.slice(1)} is reached in ${formatMinutes(minutes)} (${formatNumber(100 * completion, 0)} % complete, gain ${needed})${how}: ${after}.`;
  },
  sureness: ({ minutesError }: TreatmentPlan): string | null => {
    if (minutesError === null) return null;
    const { standardError, plausible } = minutesError;
    const error =
      standardError === null
        ? 'Nothing of yours is fitted yet, so the time has no standard error'
        : `Standard error of the time: ${formatNumber(standardError, 2)} min`;
    const [least, most] = plausible;
    return most === null
      ? `${error}. It may well take from ${formatMinutes(least)} up, and the bath may not get there at all.`
      : `${error}. It may well take between ${formatMinutes(least)} and ${formatMinutes(most)}.`;
  },
  nextTrialTitle: 'The scrap that would tell most',
  nextTrial: ({ errorNow, trials }: NextTrial): string => {
    const [best] = trials;
    if (best === undefined) return '';
    const { partsWater, minutes, celsius } = best.bath;
    const part = errorNow > 0 ? Math.round(100 * (1 - best.errorAfter / errorNow)) : 0;
    const what = `Tone one more scrap at ${bath(partsWater, minutes, celsius)}`;
    return part < 10
      ? `${what}, if any: it would hardly narrow the gain at the bath as set (±\u00a0${formatNumber(errorNow, 4)} now, ±\u00a0${formatNumber(best.errorAfter, 4)} after).`
      : `${what}: the standard error of the gain at the bath as set would fall from ${formatNumber(errorNow, 3)} to ${formatNumber(best.errorAfter, 3)}, ${part} % less.`;
  },
  nextTrialHint:
    'Reckoned for a scrap read at two spots twice, before and after; built-in ranges count as knowledge until trials replace them.',
  nextTrialTable: 'Trials by what they would tell',
  expectedGain: 'gain expected',
  errorAfter: 'error after',
  sensitivity: ({ perMinute, perDegree }: Sensitivity, range: number | null) => {
    const also = (change: number) =>
      range === null ? '' : ` (printing range ${formatSigned(change * range, 3)} log₁₀)`;
    return `At the bath as set, one minute more changes the gain by ${formatSigned(perMinute, 3)}${also(perMinute)}, one degree more by ${formatSigned(perDegree, 3)}${also(perDegree)}.`;
  },
  completionTitle: 'Completion against minutes',
  plannedLabel: (plan: Plan) => `1+${trimmed(plan.partsWater)}, ${trimmed(plan.celsius)} °C`,
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
  held: 'held by you',
  hold: 'hold at',
  holdTitle: 'Hold parameters yourself',
  holdHint:
    'Every parameter is fitted where your trials tell it, and built in where they do not. What you type here stands instead; empty it to let go.',
  holdUnits: {
    maximumGain: '×',
    halfDose: 'min',
    concentrationExponent: 'n of cⁿ t',
    temperatureCoefficient: 'for 10 °C',
  } satisfies Record<keyof HeldParameters, string>,
  fogTitle: ({ clearBaseDensity }: Plan) =>
    clearBaseDensity === null
      ? 'Does the bath tone the fog too? Taken as no'
      : `Fog is toned too, above a clear base of ${formatNumber(clearBaseDensity, 2)}`,
  clearBase: 'Density of the clear base',
  clearBaseUnit: 'without fog; empty: fog stays',
  clearBaseHint:
    'Fixed out, undeveloped film shows the clear base. The treated curve above is drawn with its fog toned as its image is.',
  baseFog: 'Base + fog',
  clearBaseAbove: 'The clear base cannot be denser than base + fog: the fog is drawn as it was.',
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
    'Two readings on a toned scrap of your own film replace the built-in gain: add a trial piece below, or “its toned twin” to a strip above.',
  trialsTable: 'Toned strips',
  trial: 'strip',
  bath: 'bath',
  pairs: 'pairs',
};

function goalText(target: TreatmentTarget): string {
  if ('grade' in target) return `grade ${target.grade}`;
  if ('densityRange' in target) {
    return `a density range of ${formatNumber(target.densityRange, 2)}`;
  }
  const { printingRange, standardError = null } = target;
  const error = standardError === null ? '' : ` ± ${formatNumber(standardError, 2)}`;
  return `the scale of your paper, ${formatNumber(printingRange, 2)}${error} log₁₀,`;
}

export const mixing = {
  title: 'Mixing sheet',
  volume: 'Working solution needed',
  placeholder: 'e.g. 1 l, 250 ml',
  hint: 'Type a volume with its unit; millilitres are meant without one.',
  says: ({ concentrate, water, total, partsWater }: MixingSheet): string =>
    `${volume(concentrate)} concentrate + ${volume(water)} water = ${volume(total)} at 1+${trimmed(partsWater)}.`,
  readerMissing: (typed: string) =>
    `“${typed}” could not be read: what reads units did not arrive. Type it again once there is a network.`,
  wrong: (typed: string) => `“${typed}” is no volume. Type a number with ml, l or floz.`,
};

function volume({ millilitres, usFluidOunces }: MixedVolume): string {
  return `${trimmed(millilitres)} ml (${formatNumber(usFluidOunces, 1)} US fl oz)`;
}
