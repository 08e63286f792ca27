/** Finds the cells that warnings about single readings speak of, to mark them where they stand. */
import type { Warning } from '@wedgebook/core';
import { rowLogExposure, type Strip, type TabletLookup } from '@wedgebook/notebook';

export interface SuspectCells {
  /** The warning of a cell, by `placeKey`. */
  readonly at: ReadonlyMap<string, Warning>;
  /** Warnings that belong to no cell of the sheet. */
  readonly others: readonly Warning[];
}

/** Key of a reading's cell: row -1 is base + fog, replicates count from 0. */
export const placeKey = (row: number, replicate: number): string => `${row}/${replicate}`;

interface ReadCell {
  readonly key: string;
  readonly density: number;
  /** -Infinity where unexposed. */
  readonly logExposure: number;
}

/**
 * @param strip - the strip on the sheet
 * @param warnings - those of its fit
 * @param tablets - see `tabletLookup`
 */
export function suspectCells(
  strip: Strip,
  warnings: readonly Warning[],
  tablets: TabletLookup,
): SuspectCells {
  const at = new Map<string, Warning>();
  const others: Warning[] = [];
  let cells: readonly ReadCell[] | undefined;
  for (const each of warnings) {
    if (each.code !== 'suspect-reading' && each.code !== 'step-slip') {
      others.push(each);
      continue;
    }
    cells ??= readCells(strip, tablets);
    const free = cells.filter(({ key }) => !at.has(key));
    const cell = nearest(free, Number(each.details['density']), each.details['logExposure']);
    if (cell === null) others.push(each);
    else at.set(cell.key, each);
  }
  return { at, others };
}

function readCells(strip: Strip, tablets: TabletLookup): ReadCell[] {
  const unexposed = strip.unexposedDensities.map((density, replicate) => ({
    key: placeKey(-1, replicate),
    density,
    logExposure: -Infinity,
  }));
  const exposed = strip.rows.flatMap((row, index) => {
    const logExposure = rowLogExposure(row, strip, tablets);
    if (logExposure === null) return [];
    return row.densities.flatMap((density, replicate) =>
      density === null ? [] : [{ key: placeKey(index, replicate), density, logExposure }],
    );
  });
  return [...unexposed, ...exposed];
}

/** Where a step was skipped, a warning's exposure is the next step's: the nearest counts. */
function nearest(cells: readonly ReadCell[], density: number, exposure: unknown): ReadCell | null {
  const target = typeof exposure === 'number' ? exposure : -Infinity;
  const distance = ({ logExposure }: ReadCell): number =>
    logExposure === target ? 0 : Math.abs(logExposure - target);
  let best: ReadCell | null = null;
  for (const cell of cells) {
    if (cell.density !== density) continue;
    if (best === null || distance(cell) < distance(best)) best = cell;
  }
  return best;
}
