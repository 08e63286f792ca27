/**
 * Where the reading stands in an instrument's lines, learnt from a line and the number that the
 * instrument showed with it. A place holds for lines of the same form only: a heading, an error or
 * the half of a line has another, and no reading is taken from it.
 */
import { formOf, numbersIn, type DecimalMark, type NumberInLine } from './number-in-line.ts';

export interface Place {
  readonly form: string;
  readonly mark: DecimalMark;
  /** Place among the numbers of the line, from 0. */
  readonly index: number;
  /** Digits after the mark; another count is another form, for a digit may be lost. */
  readonly decimals: number;
  /** The number is sent this many powers of ten too great: `126` for 1.26. */
  readonly shift: number;
}

/** A line, and the number that the instrument showed when it sent it. */
export interface Example {
  readonly line: string;
  readonly shown: { readonly value: number; readonly decimals: number };
}

export type Learnt =
  | { readonly status: 'found'; readonly place: Place }
  /** More than one place holds the number: another reading tells them apart, or the user. */
  | { readonly status: 'ambiguous'; readonly places: readonly Place[] }
  /** No number of the line is the one shown; `contradicted` where one was until an example before. */
  | { readonly status: 'not-found'; readonly contradicted: boolean };

const MOST_SHIFT = 4;
const MARKS: readonly DecimalMark[] = ['.', ','];

interface Candidate {
  readonly place: Place;
  /** 0 the very number; 1 the display rounds it; 2 the line leaves out the decimal mark. */
  readonly rank: number;
}

/**
 * @param example - the newest line with its number
 * @param earlier - examples before it; those of the same form must agree
 */
export function learnPlace(example: Example, earlier: readonly Example[] = []): Learnt {
  const first = candidatesOf(example);
  let left = first;
  for (const other of earlier) {
    const theirs = candidatesOf(other);
    left = left.flatMap((candidate) => {
      const { form, mark } = candidate.place;
      if (formOf(other.line, mark) !== form) return [candidate];
      const match = theirs.find(({ place }) => samePlace(place, candidate.place));
      return match === undefined
        ? []
        : [{ ...candidate, rank: Math.max(candidate.rank, match.rank) }];
    });
  }
  const best = Math.min(...left.map(({ rank }) => rank));
  const places = left.filter(({ rank }) => rank === best).map(({ place }) => place);
  const [place, ...more] = places;
  if (place === undefined) return { status: 'not-found', contradicted: first.length > 0 };
  return more.length === 0 ? { status: 'found', place } : { status: 'ambiguous', places };
}

function candidatesOf({ line, shown }: Example): Candidate[] {
  const found = MARKS.flatMap((mark) => {
    const form = formOf(line, mark);
    return numbersIn(line, mark).flatMap((number, index): Candidate[] => {
      const { decimals } = number;
      const fit = agreement(number, shown);
      if (fit === null) return [];
      return [{ place: { form, mark, index, decimals, shift: fit.shift }, rank: fit.rank }];
    });
  });
  // A number without a mark reads alike by both: the point's way stands for it.
  return found.filter(
    ({ place }, at) =>
      place.mark === '.' || !found.slice(0, at).some((other) => sameReading(other.place, place)),
  );
}

function agreement(
  number: NumberInLine,
  shown: Example['shown'],
): { rank: number; shift: number } | null {
  const least = 1e-9;
  if (Math.abs(number.value - shown.value) <= least) return { rank: 0, shift: 0 };
  // A display of whole numbers would agree with half of what is sent.
  const rounded = Math.abs(number.value - shown.value) <= 0.5 * 10 ** -shown.decimals + least;
  if (rounded && shown.decimals > 0 && number.decimals > shown.decimals)
    return { rank: 1, shift: 0 };
  if (number.decimals > 0 || shown.value === 0) return null;
  for (let shift = 1; shift <= MOST_SHIFT; shift++) {
    if (Math.abs(number.value / 10 ** shift - shown.value) <= least) return { rank: 2, shift };
  }
  return null;
}

const samePlace = (a: Place, b: Place): boolean =>
  a.form === b.form && a.mark === b.mark && a.index === b.index && a.shift === b.shift;

const sameReading = (a: Place, b: Place): boolean =>
  a.form === b.form && a.index === b.index && a.decimals === b.decimals && a.shift === b.shift;

/**
 * The reading in a line by the places learnt so far.
 *
 * @returns the number as it would be typed, with its sign of per cent; null where the line has none
 *   of the forms learnt
 */
export function readLine(line: string, places: readonly Place[]): string | null {
  for (const { form, mark, index, decimals, shift } of places) {
    if (formOf(line, mark) !== form) continue;
    const number = numbersIn(line, mark)[index];
    if (number?.decimals !== decimals) continue;
    const value = Number((number.value / 10 ** shift).toPrecision(12));
    return `${value}${number.percent ? ' %' : ''}`;
  }
  return null;
}

/** Adds a place; one learnt for the same lines before gives way. */
export function withPlace(places: readonly Place[], place: Place): Place[] {
  const others = places.filter(
    ({ form, mark, decimals }) =>
      form !== place.form || mark !== place.mark || decimals !== place.decimals,
  );
  return [...others, place];
}
