import type { Strip } from '@wedgebook/notebook';
import type { WorkCommand } from '../state/work.ts';
import type { Cell } from './cells.ts';

/** The command that writes one cell; base + fog takes further readings at its end. */
export function cellCommand(
  strip: Strip,
  { row, column }: Cell,
  value: number | null,
): WorkCommand {
  if (row >= 0) return { type: 'rows/set-cell', stripId: strip.id, row, column, value };
  const replicate = column.kind === 'density' ? column.replicate : 0;
  const densities: (number | null)[] = [...strip.unexposedDensities];
  if (replicate < densities.length) densities[replicate] = value;
  else if (value !== null) densities.push(value);
  const unexposedDensities = densities.filter((density) => density !== null);
  return { type: 'strip/change', id: strip.id, changes: { unexposedDensities } };
}
