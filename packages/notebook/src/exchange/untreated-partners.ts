/**
 * Which untreated strips a treated strip is compared with.
 *
 * Untreated strips match where material, channel and development agree and the exposures overlap.
 * Of several, the one of the same name is taken, else the one whose name the treated strip's name
 * begins with, else all of them.
 */
import type { ReadingsStrip } from './readings-strip.ts';

/** What tells which strips belong together, beside their exposures. */
type StripFacts = Pick<
  ReadingsStrip,
  'name' | 'material' | 'channel' | 'minutes' | 'celsius' | 'treatment'
>;

/** A strip and its log exposures, one for each reading or step. */
export interface ExposedStrip {
  readonly strip: StripFacts;
  readonly logExposures: readonly number[];
}

/** @returns the partners, more than one where nothing tells them apart; empty where none matches */
export function untreatedPartners<T extends ExposedStrip>(
  treated: ExposedStrip,
  strips: readonly T[],
): readonly T[] {
  const { strip } = treated;
  const exposures = new Set(treated.logExposures.map(rounded));
  const matching = strips.filter(
    ({ strip: other, logExposures }) =>
      other.treatment === null &&
      agrees(strip.material, other.material) &&
      agrees(strip.channel, other.channel) &&
      agrees(strip.minutes, other.minutes) &&
      agrees(strip.celsius, other.celsius) &&
      logExposures.some((x) => exposures.has(rounded(x))),
  );
  const sameName = matching.filter(({ strip: other }) => other.name === strip.name);
  if (sameName.length > 0) return sameName;
  const beginning = matching.filter(({ strip: other }) => strip.name.startsWith(other.name));
  const longest = Math.max(...beginning.map(({ strip: other }) => other.name.length));
  const named = beginning.filter(({ strip: other }) => other.name.length === longest);
  return named.length > 0 ? named : matching;
}

/** What one strip does not say agrees with anything. */
const agrees = <T>(a: T | null, b: T | null): boolean => a === null || b === null || a === b;

/** Exposures are compared to a ten-thousandth, beyond any tablet's certificate. */
const rounded = (logExposure: number): number => Math.round(logExposure * 1e4);
