/**
 * Width of a line of text without a screen to measure it on, from the advance widths of the common
 * sans-serif text face. Wrong by a few per cent at most, always on the wide side for layout.
 */

export const FONT_FAMILY = "'Helvetica Neue', Helvetica, Arial, 'Liberation Sans', sans-serif";

/** Advance widths in thousandths of the size; anything not listed counts as a figure. */
const WIDTHS: readonly (readonly [string, number])[] = [
  ["ijl'|", 222],
  [' .,:;ft/!()[]I·', 278],
  ['-r', 333],
  ['cksvxyzJ', 500],
  ['+−=<>×≈±', 584],
  ['FTZ', 611],
  ['ABEKPSVXY', 667],
  ['wCDHNRU', 722],
  ['GOQ', 778],
  ['mM', 833],
  ['W%', 944],
];
const FIGURE = 556;
const ADVANCE = new Map(
  WIDTHS.flatMap(([letters, width]) => Array.from(letters, (l): [string, number] => [l, width])),
);
const SAFETY = 1.04; // substitutes of the face differ a little

/**
 * Width in pixels of one line of text.
 *
 * @param text - the line
 * @param size - font size in pixels
 * @param bold - whether it is set in the heavy weight
 */
export function textWidth(text: string, size: number, bold = false): number {
  let thousandths = 0;
  for (const letter of text) thousandths += ADVANCE.get(letter) ?? FIGURE;
  return (thousandths / 1000) * size * SAFETY * (bold ? 1.06 : 1);
}
