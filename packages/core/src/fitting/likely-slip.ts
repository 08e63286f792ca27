/**
 * What a writer may have done to turn the number that fits into the one that stands there.
 *
 * Candidates, in the order in which they are offered: the decimal point lost or moved, two
 * neighbouring digits swapped, the reading of a neighbouring step, one digit mistaken.
 *
 * Sources: practice; no study of such slips is claimed. Deviations: none.
 */

/** The slip that explains a reading best. */
export interface Slip {
  readonly kind: 'decimal-point' | 'digits-swapped' | 'digit-mistaken' | 'neighbouring-step';
  /** The number as it would have stood without the slip. */
  readonly meant: number;
}

/**
 * The likely slip, or null where none of them leads near the expected value.
 *
 * @param written - the number that stands there
 * @param expected - the number that would fit
 * @param tolerance - distance from `expected` within which a candidate explains it, above 0
 * @param neighbours - numbers expected at the steps before and after
 */
export function likelySlip(
  written: number,
  expected: number,
  tolerance: number,
  neighbours: readonly number[] = [],
): Slip | null {
  const near = (meant: number): boolean => Math.abs(meant - expected) <= tolerance;
  const closest = (candidates: readonly number[]): number | null => {
    let best: number | null = null;
    for (const meant of candidates) {
      if (!near(meant) || meant === written) continue;
      if (best === null || Math.abs(meant - expected) < Math.abs(best - expected)) best = meant;
    }
    return best;
  };
  const shifted = closest([written / 10, written / 100, written * 10, written * 100]);
  if (shifted !== null) return { kind: 'decimal-point', meant: tidy(shifted) };
  const swapped = closest(swaps(written));
  if (swapped !== null) return { kind: 'digits-swapped', meant: swapped };
  const neighbour = neighbours.find((value) => Math.abs(value - written) <= tolerance);
  if (neighbour !== undefined) return { kind: 'neighbouring-step', meant: tidy(expected, 2) };
  // A mistaken digit can explain almost anything in the last places: it must lead twice as near.
  const mistaken = closest(replacements(written));
  if (mistaken !== null && Math.abs(mistaken - expected) <= tolerance / 2) {
    return { kind: 'digit-mistaken', meant: mistaken };
  }
  return null;
}

function swaps(written: number): number[] {
  const text = padded(written);
  const places = digitPlaces(text);
  return places.slice(0, -1).flatMap((place, i) => {
    const next = places[i + 1] as number;
    const characters = Array.from(text);
    characters[place] = text[next] as string;
    characters[next] = text[place] as string;
    return [Number(characters.join(''))];
  });
}

function replacements(written: number): number[] {
  const text = padded(written);
  return digitPlaces(text).flatMap((place) =>
    Array.from({ length: 10 }, (_, digit) =>
      Number(text.slice(0, place) + digit.toString() + text.slice(place + 1)),
    ),
  );
}

/** Densities are written with two decimals or more. */
function padded(value: number): string {
  const text = String(value);
  const decimals = text.split('.')[1]?.length ?? 0;
  return /e/.test(text) ? value.toFixed(6) : value.toFixed(Math.max(2, decimals));
}

function digitPlaces(text: string): number[] {
  return Array.from(text).flatMap((character, i) => (/\d/.test(character) ? [i] : []));
}

/** Rounds away the rounding of a shift by powers of ten. */
function tidy(value: number, decimals = 6): number {
  return Number(value.toFixed(decimals));
}
