/**
 * What trials tell of a bath, and what becomes of stain, in sentences: the app and the command say
 * the same.
 */
import {
  effectiveGain,
  type Estimate,
  type GainLawFamily,
  type ResponseFamily,
  type ResponseParameter,
  type TreatmentModel,
} from '@wedgebook/core';

export const RESPONSE_NAMES: Readonly<Record<ResponseFamily, string>> = {
  'first-order': 'first order',
  hill: 'Hill',
  weibull: 'Weibull',
  parabolic: 'parabolic (diffusion-limited)',
};

export const LAW_NAMES: Readonly<Record<GainLawFamily, string>> = {
  proportional: 'proportional',
  power: 'power',
  'intensifier-safe': 'power of the density added or taken',
  shift: 'shift (surface reducer)',
};

const PARAMETER_NAMES: Readonly<Record<ResponseParameter, string>> = {
  maximumGain: 'the greatest gain',
  halfDose: 'the half dose',
  steepness: 'the steepness',
  concentrationExponent: 'how the concentration counts',
  temperatureCoefficient: 'how the temperature counts',
};

/** A rival of at least this weight is not told from the model in use. */
const ALIKE = 0.1;

/** What the trials cannot tell apart: parameters, families and laws. */
export function untoldText(model: TreatmentModel): string {
  const { doseResponse, law } = model;
  const { family, origin, comparison } = doseResponse;
  const usesSteepness = family === 'hill' || family === 'weibull';
  const named = (kind: 'default' | 'held') =>
    (Object.keys(PARAMETER_NAMES) as ResponseParameter[])
      .filter((name) => origin[name] === kind && (name !== 'steepness' || usesSteepness))
      .map((name) => PARAMETER_NAMES[name]);
  const [untold, held] = [named('default'), named('held')];
  const alike = comparison.filter((each) => each.weight >= ALIKE && each.name !== family);
  const lawsAlike = law.comparison.filter(
    (each) => each.weight >= ALIKE && each.name !== law.family,
  );
  const sentences = [
    ...(untold.length === 0
      ? []
      : [`They do not tell ${listed(untold)}: there the built-in numbers stand.`]),
    ...(held.length === 0 ? [] : [`You hold ${listed(held)}: trials do not change that.`]),
    ...(alike.length === 0
      ? []
      : [
          `They hardly tell ${RESPONSE_NAMES[family]} from ${listed(alike.map((each) => RESPONSE_NAMES[each.name as ResponseFamily]))} in the gain against dose.`,
        ]),
    ...(law.reason === 'too-few'
      ? ['Too few densities were read to tell one gain law from another.']
      : lawsAlike.length === 0
        ? []
        : [
            `They hardly tell the ${LAW_NAMES[law.family]} law from ${listed(lawsAlike.map((each) => LAW_NAMES[each.name as GainLawFamily]))}.`,
          ]),
  ];
  return sentences.length === 0
    ? 'Every parameter, law and family is told by your trials.'
    : sentences.join(' ');
}

/** What is left of a gain of the silver if stain goes. */
export function stainLossText(gain: number, stain: number): string {
  const [all, half, none] = [1, 0.5, 0].map((stainKept) =>
    effectiveGain(gain, { stain, stainKept }),
  ) as [number, number, number];
  const shown = (value: number) => `×${value.toFixed(2)}`;
  const verdict =
    none < 1
      ? 'With all the stain gone the negative would print flatter than before: the net gain is less than nothing.'
      : 'Even with all the stain gone something is gained.';
  return `The gain of ${shown(gain)} on silver alone comes to ${shown(all)} on the whole range if the stain stays, ${shown(half)} if half of it goes, ${shown(none)} if all of it goes. ${verdict}`;
}

/** Whether the bath tones base + fog; null where it was not read before and after. */
export function fogChangeText(change: Estimate | null): string | null {
  if (change === null) return null;
  const { value, standardError } = change;
  const error = standardError ?? 0;
  const figure = `${value < 0 ? '−' : '+'}${Math.abs(value).toFixed(3)} ± ${error.toFixed(3)}`;
  if (Math.abs(value) <= 2 * error) {
    return `Base + fog changes by ${figure}: that is no more than its error, so the bath is not seen to tone it.`;
  }
  return value > 0
    ? `Base + fog rises by ${figure}: the bath tones the fog too.`
    : `Base + fog falls by ${figure}: the bath clears it.`;
}

function listed(words: readonly string[]): string {
  const last = words.at(-1) ?? '';
  return words.length < 2 ? last : `${words.slice(0, -1).join(', ')} and ${last}`;
}
