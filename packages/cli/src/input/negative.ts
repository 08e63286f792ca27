/** The negative that options describe, and the light that prints it. */
import { enlargerLights } from '@wedgebook/data';
import { USAGE } from '../text.ts';
import { UsageError } from '../usage-error.ts';
import type { Arguments, OptionKinds } from './arguments.ts';

export const NEGATIVE_OPTIONS = {
  range: { type: 'string' },
  shadow: { type: 'string' },
  highlight: { type: 'string' },
  light: { type: 'string' },
  callier: { type: 'string' },
  'callier-error': { type: 'string' },
  stain: { type: 'string' },
} as const satisfies OptionKinds;

export type GivenNegative =
  | { readonly densityRange: number }
  | { readonly shadowDensity: number; readonly highlightDensity: number };

/** @returns undefined where nothing of a negative is said */
export function givenNegative(given: Arguments): GivenNegative | undefined {
  const densityRange = given.number('range', 0.01, 6);
  const shadowDensity = given.number('shadow', -0.5, 6);
  const highlightDensity = given.number('highlight', -0.5, 6);
  const bySpots = shadowDensity !== undefined || highlightDensity !== undefined;
  if (densityRange !== undefined) {
    if (bySpots) throw new UsageError(USAGE.rangeOrSpots);
    return { densityRange };
  }
  if (!bySpots) return undefined;
  if (shadowDensity === undefined || highlightDensity === undefined) {
    throw new UsageError(USAGE.rangeOrSpots);
  }
  if (shadowDensity === highlightDensity) throw new UsageError(USAGE.sameRange);
  return { shadowDensity, highlightDensity };
}

export interface GivenLight {
  readonly callierFactor: number;
  /** Standard error of a factor that the user measured; null where none is told. */
  readonly callierFactorError: number | null;
  /** Source and mark of a built-in factor; null where the user gave it. */
  readonly builtIn: {
    readonly name: string;
    readonly source: string;
    readonly verified: boolean;
  } | null;
}

/** `--callier` beats `--light`; diffuse light is the default. */
export function givenLight(given: Arguments): GivenLight {
  const id = given.choice('light', ['diffuse', 'condenser']) ?? 'diffuse';
  const own = ownCallier(given);
  if (own !== null) return { ...own, builtIn: null };
  const light = enlargerLights.find((candidate) => candidate.id === id);
  if (light === undefined) return { callierFactor: 1, callierFactorError: null, builtIn: null };
  const { source, verified } = light.provenance;
  return {
    callierFactor: light.callierFactor.value,
    callierFactorError: null,
    builtIn: { name: light.name, source, verified },
  };
}

/**
 * The user's own factor with its standard error.
 *
 * @returns null where none is given
 * @throws {UsageError} for an error without a factor
 */
export function ownCallier(
  given: Arguments,
): { readonly callierFactor: number; readonly callierFactorError: number | null } | null {
  const callierFactor = given.number('callier', 1, 2);
  const callierFactorError = given.number('callier-error', 0, 0.5) ?? null;
  if (callierFactor !== undefined) return { callierFactor, callierFactorError };
  if (callierFactorError !== null) throw new UsageError(USAGE.callierErrorAlone);
  return null;
}

/**
 * Image stain in the paper's channel as a share of the silver's density, and the share that a bath
 * leaves of it: all, unless a share is given.
 *
 * @throws {UsageError} for a share of a stain that is not given
 */
export function givenStain(given: Arguments): {
  readonly stain: number;
  readonly stainKept: number;
} {
  const stain = given.number('stain', 0, 5);
  const stainKept = given.number('stain-kept', 0, 1);
  if (stainKept !== undefined && stain === undefined) throw new UsageError(USAGE.stainKeptAlone);
  return { stain: stain ?? 0, stainKept: stainKept ?? 1 };
}
