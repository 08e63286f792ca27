/**
 * Axes as marks: hairline grid, tick labels with true minus signs, titles with units.
 */
import type { ScaleLinear } from 'd3';
import { segment, stroke, type Mark } from '../scene/mark.ts';
import { formatNumber } from '../text/format.ts';

export interface Plot {
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
}

type Linear = ScaleLinear<number, number>;

const TICK_SIZE = 12;

/** Decimals that a tick step needs: 0.5 -> 1, 0.25 -> 2, 20 -> 0. */
function decimalsOfStep(step: number): number {
  for (let decimals = 0; decimals < 4; decimals++) {
    if (Math.abs(step * 10 ** decimals - Math.round(step * 10 ** decimals)) < 1e-6) return decimals;
  }
  return 4;
}

/** Tick values with labels of one common count of decimals. */
export function ticksOf(scale: Linear, count: number): { value: number; label: string }[] {
  const values = scale.ticks(Math.max(1, count));
  const step = Math.abs((values[1] ?? 1) - (values[0] ?? 0)) || 1;
  const decimals = decimalsOfStep(step);
  return values.map((value) => ({ value, label: formatNumber(value, decimals) }));
}

/** Vertical grid lines, tick labels and title below the plot. */
export function bottomAxis(scale: Linear, plot: Plot, title: string, grid = true): Mark[] {
  const bottom = plot.y + plot.height;
  const marks: Mark[] = ticksOf(scale, plot.width / 75).flatMap(({ value, label }): Mark[] => {
    const x = scale(value);
    return [
      ...(grid ? [stroke(segment(x, plot.y, x, bottom), 'rule', 1)] : []),
      stroke(segment(x, bottom, x, bottom + 5), 'frame', 1),
      {
        kind: 'text',
        x,
        y: bottom + 19,
        text: label,
        anchor: 'middle',
        size: TICK_SIZE,
        ink: 'quiet',
      },
    ];
  });
  marks.push(stroke(segment(plot.x, bottom, plot.x + plot.width, bottom), 'frame', 1));
  marks.push({
    kind: 'text',
    x: plot.x + plot.width / 2,
    y: bottom + 38,
    text: title,
    anchor: 'middle',
    size: TICK_SIZE,
    ink: 'quiet',
  });
  return marks;
}

/** Horizontal grid lines and tick labels left of the plot; the title stands above the axis. */
export function leftAxis(scale: Linear, plot: Plot, title: string, gridTo = plot.width): Mark[] {
  const marks: Mark[] = ticksOf(scale, plot.height / 55).flatMap(({ value, label }): Mark[] => {
    const y = scale(value);
    return [
      stroke(segment(plot.x, y, plot.x + gridTo, y), 'rule', 1),
      {
        kind: 'text',
        x: plot.x - 8,
        y: y + 4,
        text: label,
        anchor: 'end',
        size: TICK_SIZE,
        ink: 'quiet',
      },
    ];
  });
  marks.push(stroke(segment(plot.x, plot.y, plot.x, plot.y + plot.height), 'frame', 1));
  marks.push({
    kind: 'text',
    x: plot.x - 30,
    y: plot.y - 12,
    text: title,
    anchor: 'start',
    size: TICK_SIZE,
    ink: 'quiet',
  });
  return marks;
}

/** Tick labels and title right of the plot. */
export function rightAxis(
  scale: Linear,
  plot: Plot,
  title: string,
  label: (value: number) => string,
): Mark[] {
  const right = plot.x + plot.width;
  const marks: Mark[] = scale.ticks(Math.max(2, plot.height / 55)).map((value) => ({
    kind: 'text',
    x: right + 8,
    y: scale(value) + 4,
    text: label(value),
    anchor: 'start',
    size: TICK_SIZE,
    ink: 'quiet',
  }));
  marks.push({
    kind: 'text',
    x: right + 44,
    y: plot.y - 12,
    text: title,
    anchor: 'end',
    size: TICK_SIZE,
    ink: 'quiet',
  });
  return marks;
}
