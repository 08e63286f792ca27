/**
 * Where a setting of contrast stands in its series: filters and grades are numbered, softest first,
 * and `00` stands one before `0`.
 *
 * Sources: none needed, trade usage. Deviations: none.
 */

const HALVES: Readonly<Record<string, number>> = {
  '½': 0.5,
  '¼': 0.25,
  '¾': 0.75,
  '⅓': 1 / 3,
  '⅔': 2 / 3,
};

/**
 * Number of a setting.
 *
 * @param setting - as it is written: `00`, `2½`, `2 1/2`, `3,5`, `grade 3`
 * @returns its number, -1 for `00`; null where the text holds no number or more than one
 * @example
 * settingPosition('grade 2½'); // => 2.5
 */
export function settingPosition(setting: string): number | null {
  const text = setting.trim();
  if (/^\D*00\D*$/.test(text)) return -1;
  const match =
    /^[^\d½¼¾⅓⅔+-]*([+-]?\d+(?:[.,]\d+)?)?(?:\s*([½¼¾⅓⅔])|\s+(\d+)\s*\/\s*(\d+))?[^\d½¼¾⅓⅔]*$/u.exec(
      text,
    );
  if (match === null) return null;
  const [, whole, sign, above, below] = match;
  if (whole === undefined && sign === undefined) return null;
  const fraction =
    sign !== undefined
      ? (HALVES[sign] ?? 0)
      : above !== undefined && Number(below) > 0
        ? Number(above) / Number(below)
        : 0;
  return Number((whole ?? '0').replace(',', '.')) + fraction;
}

/**
 * A number of the series as it is written.
 *
 * @param position - number, -1 for `00`
 * @returns `00`, whole numbers and halves as such, else one decimal
 * @example
 * settingName(2.5); // => '2½'
 */
export function settingName(position: number): string {
  if (position === -1) return '00';
  const whole = Math.floor(position);
  if (position === whole) return String(whole);
  if (position - whole === 0.5 && position > 0) return whole === 0 ? '½' : `${whole}½`;
  return position.toFixed(1);
}
