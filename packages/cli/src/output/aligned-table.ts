/** Text in columns: names to the left, figures to the right. */

export interface TableColumn {
  readonly title: string;
  readonly align?: 'left' | 'right';
}

/** @returns lines without trailing blanks, each ended; empty where there are no rows */
export function alignedTable(
  columns: readonly TableColumn[],
  rows: readonly (readonly string[])[],
  indent = '',
): string {
  if (rows.length === 0) return '';
  const titled = columns.some(({ title }) => title !== '');
  const lines = titled ? [columns.map(({ title }) => title), ...rows] : rows;
  const last = columns.length - 1;
  const laid = columns.map(({ align = 'left' }, index) => {
    const cells = lines.map((line) => line[index] ?? '');
    // Blanks after the last column would be cut off again.
    if (align === 'left' && index === last) return cells;
    const widths = cells.map(width);
    const widest = widths.reduce((most, one) => Math.max(most, one), 0);
    return cells.map((cell, row) => {
      const blanks = ' '.repeat(widest - (widths[row] ?? widest));
      return align === 'left' ? cell + blanks : blanks + cell;
    });
  });
  return lines
    .map(
      (_, row) =>
        `${indent}${laid
          .map((cells) => cells[row] ?? '')
          .join('  ')
          .trimEnd()}\n`,
    )
    .join('');
}

/** Rows of name, figure and explanation under one another. */
export function factList(rows: readonly (readonly string[])[]): string {
  return alignedTable([{ title: '' }, { title: '' }, { title: '' }], rows, '  ');
}

/** Characters, not code units: a combining mark or an emoji counts as one. */
const width = (text: string): number =>
  SIMPLE.test(text) ? text.length : Array.from(text.normalize('NFC')).length;

/** Before the first combining mark each code unit is a character: nearly every figure is so. */
const SIMPLE = /^[\u0000-\u02ff]*$/;
