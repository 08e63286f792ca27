/**
 * What a bath changes in a print on the same paper at the same grade, the highlight held.
 *
 *   exposure change  ΔL = L' - L, so that the highlight prints as before;  stops ΔL / 0.30103
 *   separation       d D_print / d D_negative before and after, at every density of the negative
 *
 * A bath that raises contrast asks for more exposure and gains separation where the paper then prints
 * on a steeper part, or where the bath itself is steepest.
 *
 * Sources: gradients multiply [JONES1920]. Deviations: none.
 */
import { InvalidArgumentError } from '../errors.ts';
import type { Estimate } from '../estimate.ts';
import { paperResponse } from '../paper/index.ts';
import { LOG_STOP } from '../readings/index.ts';
import type { TreatmentEffect } from '../treatment/index.ts';
import { negativePrinter, printLogExposureFor, type NegativePrinting } from './print-negative.ts';

/** One density of the negative in both prints. */
export interface ToneBeforeAfter {
  readonly negativeDensity: number;
  readonly printBefore: number;
  readonly printAfter: number;
  readonly lightnessBefore: number;
  readonly lightnessAfter: number;
  /** Lightness lost for each unit of density of the untreated negative. */
  readonly separationBefore: number;
  readonly separationAfter: number;
}

export type SameGrade =
  | {
      readonly status: 'ok';
      /** More (+) exposure after the bath, stops, with the error of the gain. */
      readonly exposureChangeStops: Estimate;
      readonly tones: readonly ToneBeforeAfter[];
      /**
       * Densities of the untreated negative between which separation in lightness is gained; empty
       * where none is.
       */
      readonly gains: readonly (readonly [number, number])[];
    }
  | { readonly status: 'outside-paper'; readonly reachable: readonly [number, number] };

/**
 * Compares the prints before and after a bath.
 *
 * @param printing - how the negative is printed; its effect and exposure do not count
 * @param effect - the bath
 * @param aim - the highlight: its density on the untreated negative, and the print density held
 * @param densities - of the untreated negative, ascending, two or more
 * @throws InvalidArgumentError if the densities are not ascending numbers
 */
export function sameGrade(
  printing: Omit<NegativePrinting, 'effect' | 'printLogExposure'>,
  effect: TreatmentEffect,
  aim: { readonly negativeDensity: number; readonly printDensity: number },
  densities: readonly number[],
): SameGrade {
  const ascending = densities.every((density, i) => i === 0 || density > (densities[i - 1] ?? 0));
  if (densities.length < 2 || !ascending || !densities.every(Number.isFinite)) {
    throw new InvalidArgumentError('sameGrade', 'densities', densities, 'ascending numbers');
  }
  // The stain is there before the bath too: a bath of no minutes, not no bath.
  const before = { ...printing, effect: untouched(effect) };
  const after = { ...printing, effect };
  const first = printLogExposureFor(before, aim);
  const second = printLogExposureFor(after, aim);
  if (first === null || second === null) {
    const [low, high] = [0.04, 0.95 * netMaximumOf(printing)];
    const white = printing.paperWhiteDensity;
    return { status: 'outside-paper', reachable: [white + low, white + high] };
  }
  const printBefore = negativePrinter({ ...before, printLogExposure: first });
  const printAfter = negativePrinter({ ...after, printLogExposure: second });
  const tones = densities.map((negativeDensity): ToneBeforeAfter => {
    const [a, b] = [printBefore(negativeDensity), printAfter(negativeDensity)];
    const separation = ({ gradients: g }: typeof a): number =>
      -g.treatment * g.light * g.enlargerFlare * g.paper * g.lightness;
    return {
      negativeDensity,
      printBefore: a.printDensity,
      printAfter: b.printDensity,
      lightnessBefore: a.lightness,
      lightnessAfter: b.lightness,
      separationBefore: separation(a),
      separationAfter: separation(b),
    };
  });
  return {
    status: 'ok',
    exposureChangeStops: {
      value: (second - first) / LOG_STOP,
      standardError: changeError(after, effect, aim, second),
    },
    tones,
    gains: gainsOf(tones),
  };
}

function netMaximumOf({ paper }: Pick<NegativePrinting, 'paper'>): number {
  return paperResponse(paper).netMaximum;
}

/** Error of the exposure by the gain: a difference of the gain by its error. */
function changeError(
  printing: Omit<NegativePrinting, 'printLogExposure'>,
  effect: TreatmentEffect,
  aim: { readonly negativeDensity: number; readonly printDensity: number },
  logExposure: number,
): number | null {
  const { standardError, value } = effect.gain;
  if (standardError === null) return null;
  const raised = { ...effect, gain: { ...effect.gain, value: value + 1e-4 } };
  const moved = printLogExposureFor({ ...printing, effect: raised }, aim);
  return moved === null ? null : (Math.abs(moved - logExposure) / 1e-4 / LOG_STOP) * standardError;
}

/** No bath at all: gain 1 and all of the stain. */
function untouched(effect: TreatmentEffect): TreatmentEffect {
  return {
    ...effect,
    gain: { value: 1, standardError: null },
    law: { ...effect.law, family: 'proportional', exponent: 1 },
    stainKept: 1,
  };
}

function gainsOf(tones: readonly ToneBeforeAfter[]): (readonly [number, number])[] {
  const gains: (readonly [number, number])[] = [];
  let from: number | null = null;
  let last = 0;
  for (const { negativeDensity, separationBefore, separationAfter } of tones) {
    const gained = separationAfter > separationBefore;
    if (gained) from ??= negativeDensity;
    else if (from !== null) {
      gains.push([from, last]);
      from = null;
    }
    last = negativeDensity;
  }
  if (from !== null) gains.push([from, last]);
  return gains;
}
