/**
 * Where commas part the columns and stand in the numbers too, the decimals make columns of their
 * own: `1,0,12` for step 1 of density 0,12. They are put together again if all rows allow it.
 */
import { countsUp, stepsOf } from './row-names.ts';

/** Greatest whole part of a density or of a log exposure. */
const MOST_WHOLE = 6;

/**
 * @param table - lines cut at every comma
 * @returns the table with its decimals whole again, or null where the cuts stand for columns
 */
export function withDecimalCommas(table: readonly string[][]): string[][] | null {
  // The first cell may name a row of base + fog.
  const body = table.filter(
    (cells) => cells.length > 2 && cells.slice(1).every((cell) => /^[+−-]?\d*$/.test(cell)),
  );
  const width = body[0]?.length ?? 0;
  const first = width % 2;
  const after = first + (width - first) / 2;
  const heads = table.slice(0, table.length - body.length);
  const names = heads.at(-1);
  const fits =
    body.length >= 2 &&
    body.every((cells) => cells.length === width) &&
    table.slice(heads.length).every((cells, row) => cells === body[row]) &&
    (names === undefined ? first === 1 && countsUp(stepsOf(body)) : names.length === after);
  if (!fits) return null;
  const pairsOf = (cells: readonly string[]) =>
    Array.from({ length: after - first }, (_, pair) => cells.slice(first + 2 * pair).slice(0, 2));
  const areDecimals = body.every((cells) =>
    pairsOf(cells).every(
      ([whole = '', part = '']) =>
        (whole === '') === (part === '') && Math.abs(Number(whole)) <= MOST_WHOLE,
    ),
  );
  if (!areDecimals) return null;
  const together = (cells: string[]) => [
    ...cells.slice(0, first),
    ...pairsOf(cells).map(([whole, part]) => (whole === '' ? '' : `${whole},${part}`)),
  ];
  return [...heads, ...body.map(together)];
}
