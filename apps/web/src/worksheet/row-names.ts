/** How people name the rows of a table of readings: a step, or base + fog. */

/** The row of base + fog on the sheet, above the steps. */
export const BASE_ROW = -1;

const STEP = /^(?:step|stufe|no\.?|nr\.?|#)?\s*(\d{1,4})\s*[.):]?$/i;

/** Base + fog, fog alone or unexposed, as it stands in the tables of several languages. */
const BASE_FOG =
  /^(?:b(?:ase)?\.?\s*(?:[+&/]|and|plus)?\s*f(?:og)?\.?|base|fog|unexposed|clear(?:\s+film)?|d[ _-]?min|schleier|unbelichtet|voile|velo)$/i;

/** @returns the number of a step such as `7`, `7.`, `#7`, `step 7`; null where it is none */
export function stepFrom(name: string): number | null {
  const digits = STEP.exec(name.trim())?.[1];
  return digits === undefined ? null : Number(digits);
}

/** Whether a cell names the row of base + fog. */
export function isBaseFog(cell: string): boolean {
  return BASE_FOG.test(cell.trim());
}

/** The first cells, without those of rows of base + fog. */
export function stepsOf(rows: readonly (readonly string[])[]): (number | null)[] {
  return rows.flatMap(([cell = '']) => (isBaseFog(cell) ? [] : [stepFrom(cell)]));
}

/** Whether the steps that a column names fall from row to row. */
export function countsDown(rows: readonly (readonly string[])[], column: number): boolean {
  const steps = rows.flatMap((row) => stepFrom(row[column] ?? '') ?? []);
  return (
    steps.length > 1 && steps.every((step, index) => index === 0 || step < (steps[index - 1] ?? 0))
  );
}

/** Whole numbers one after another, up or down. */
export function countsUp(values: readonly (number | null)[]): boolean {
  if (values.length < 2 || values.some((value) => value === null || !Number.isInteger(value))) {
    return false;
  }
  const step = (values[1] ?? 0) - (values[0] ?? 0);
  return (
    Math.abs(step) === 1 &&
    values.every((value, index) => value === (values[0] ?? 0) + index * step)
  );
}
