/** The numbers in a line of text that an instrument sent, and the line's form without them. */

export type DecimalMark = '.' | ',';

export interface NumberInLine {
  readonly value: number;
  /** Digits after the decimal mark. */
  readonly decimals: number;
  /** Whether a sign of per cent follows. */
  readonly percent: boolean;
}

/** A sign counts unless a digit stands before it, as in a date. */
const PATTERNS: Readonly<Record<DecimalMark, RegExp>> = {
  '.': /(?:(?<!\d)[+\-−])?(?:\d+(?:\.\d+)?|\.\d+)(?:e[+-]?\d+)?/giu,
  ',': /(?:(?<!\d)[+\-−])?(?:\d+(?:,\d+)?|,\d+)(?:e[+-]?\d+)?/giu,
};

/** @returns the numbers of a line from left to right */
export function numbersIn(line: string, mark: DecimalMark): NumberInLine[] {
  return [...line.matchAll(PATTERNS[mark])].map((match) => {
    const [text] = match;
    return {
      value: Number(text.replace(',', '.').replace('−', '-')),
      decimals: /[.,](\d+)/.exec(text)?.[1]?.length ?? 0,
      percent: /^\s*%/.test(line.slice(match.index + text.length)),
    };
  });
}

/**
 * What stays the same from reading to reading: the line with every number as `#`, and without the
 * blanks that an instrument pads with.
 */
export function formOf(line: string, mark: DecimalMark): string {
  return line.replaceAll(PATTERNS[mark], '#').replaceAll(/\s+/g, '');
}
