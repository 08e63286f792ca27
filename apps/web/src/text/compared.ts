/** Words of what trials can and cannot tell apart, and of stain that may be lost. */
import { formatNumber } from '@wedgebook/charts';
import {
  effectiveGain,
  type GainLawFamily,
  type ResponseFamily,
  type ResponseParameter,
  type TreatmentModel,
} from '@wedgebook/core';

const families: Readonly<Record<ResponseFamily, string>> = {
  'first-order': 'first order',
  hill: 'Hill',
  weibull: 'Weibull',
  parabolic: 'parabolic (diffusion-limited)',
};
const laws: Readonly<Record<GainLawFamily, string>> = {
  proportional: 'proportional',
  power: 'power',
  'intensifier-safe': 'power that never lowers a density',
  shift: 'shift (surface reducer)',
};
const names: Readonly<Record<ResponseParameter, string>> = {
  maximumGain: 'the greatest gain',
  halfDose: 'the half dose',
  steepness: 'the steepness',
  concentrationExponent: 'how the concentration counts',
  temperatureCoefficient: 'how the temperature counts',
};
/** A rival of at least this weight is not told from the model in use. */
const ALIKE = 0.1;

export const compared = {
  title: 'What these trials cannot tell',
  nothing: 'Without trials nothing is told: every figure is built in.',
  families,
  laws,
  table: 'Laws and families compared',
  kind: 'kind',
  name: 'name',
  law: 'gain law',
  family: 'gain against dose',
  parameters: 'parameters',
  difference: 'Δ criterion',
  weight: 'weight',
  hint: 'Laws are compared by AICc, families by chi-square + 2 for each parameter: a difference under 2 means nothing. What is not told apart is carried along and widens every error.',
  says: (model: TreatmentModel): string => {
    const { doseResponse, law } = model;
    const { family, origin, comparison } = doseResponse;
    const usesSteepness = family === 'hill' || family === 'weibull';
    const untold = (Object.keys(names) as ResponseParameter[])
      .filter((name) => origin[name] === 'default' && (name !== 'steepness' || usesSteepness))
      .map((name) => names[name]);
    const alike = comparison.filter((each) => each.weight >= ALIKE && each.name !== family);
    const lawsAlike = law.comparison.filter(
      (each) => each.weight >= ALIKE && each.name !== law.family,
    );
    const sentences = [
      ...(untold.length === 0
        ? []
        : [`They do not tell ${listed(untold)}: there the built-in numbers stand.`]),
      ...(alike.length === 0
        ? []
        : [
            `They hardly tell ${families[family]} from ${listed(alike.map((each) => families[each.name as ResponseFamily]))} in the gain against dose.`,
          ]),
      ...(lawsAlike.length === 0
        ? []
        : [
            `They hardly tell the ${laws[law.family]} law from ${listed(lawsAlike.map((each) => laws[each.name as GainLawFamily]))}.`,
          ]),
    ];
    return sentences.length === 0
      ? 'Every parameter, law and family is told by your trials.'
      : sentences.join(' ');
  },
  /** What is left of the gain of silver if stain goes. */
  stainLoss: (gain: number, stain: number): string => {
    const [all, half, none] = [1, 0.5, 0].map((stainKept) =>
      effectiveGain(gain, { stain, stainKept }),
    ) as [number, number, number];
    const shown = (value: number) => `×${formatNumber(value, 2)}`;
    const verdict =
      none < 1
        ? 'With all the stain gone the negative would print flatter than before: the net gain is less than nothing.'
        : 'Even with all the stain gone something is gained.';
    return `The gain of ${shown(gain)} on silver alone comes to ${shown(all)} on the whole range if the stain stays, ${shown(half)} if half of it goes, ${shown(none)} if all of it goes. ${verdict}`;
  },
};

function listed(words: readonly string[]): string {
  const last = words.at(-1) ?? '';
  return words.length < 2 ? last : `${words.slice(0, -1).join(', ')} and ${last}`;
}
