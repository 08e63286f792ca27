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
  const widths = columns.map((_, index) =>
    lines.reduce((widest, line) => Math.max(widest, width(line[index] ?? '')), 0),
  );
  return lines
    .map((line) => {
      const cells = columns.map(({ align = 'left' }, index) => {
        const text = line[index] ?? '';
        const blanks = ' '.repeat(Math.max(0, (widths[index] ?? 0) - width(text)));
        return align === 'left' ? text + blanks : blanks + text;
      });
      return `${indent}${cells.join('  ').trimEnd()}\n`;
    })
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
