/** A notebook opens with any finite figure in it: the screen must then be worked out all the same. */
import { soundFigures, type NotebookDocument } from '@wedgebook/notebook';
import { describe, expect, it } from 'vitest';
import { SAMPLE } from '../../../../packages/notebook/src/document/sample-document.ts';
import { worker } from '../../../../test/worked-through.ts';

const ODD = [1e308, -1e308, 0, -1, 5e-324, 50];

type Path = readonly string[];

function figuresOf(value: unknown, at: Path = []): Path[] {
  if (typeof value === 'number') return [at];
  if (typeof value !== 'object' || value === null) return [];
  return Object.entries(value).flatMap(([key, inner]) => figuresOf(inner, [...at, key]));
}

/** A copy with another figure at the path, which shares all else. */
function withFigure<T>(value: T, [key, ...rest]: Path, figure: number): T {
  if (key === undefined) return figure as T;
  const inner = (value as Record<string, unknown>)[key];
  const changed = withFigure(inner, rest, figure);
  return (
    Array.isArray(value) ? value.with(Number(key), changed) : { ...value, [key]: changed }
  ) as T;
}

describe('a notebook with a figure that cannot be', () => {
  const work = worker();

  it.each(figuresOf(SAMPLE).map((path) => [path.join('.'), path] as const))(
    'is worked out with anything as %s',
    (_name, path) => {
      for (const figure of ODD) work(withFigure<NotebookDocument>(SAMPLE, path, figure));
    },
  );

  it('names the figures, and is itself again once they are right', () => {
    const odd = withFigure<NotebookDocument>(SAMPLE, ['plan', 'celsius'], 1e308);
    const { document, replaced } = soundFigures(odd);
    expect(replaced).toEqual([{ path: 'plan.celsius', value: 1e308 }]);
    expect(document.plan.celsius).toBe(20);
    expect(document.strips).toBe(odd.strips);
    expect(soundFigures(document)).toEqual({ document, replaced: [] });
    expect(soundFigures(SAMPLE).document).toBe(SAMPLE);
  });

  it('takes no bath for known of which one figure cannot be, and no development', () => {
    const index = SAMPLE.strips.findIndex(({ treatment }) => treatment?.process === 'selenium');
    const path = ['strips', String(index)];
    const hot = withFigure<NotebookDocument>(SAMPLE, [...path, 'treatment', 'celsius'], 900);
    expect(soundFigures(hot).document.strips[index]?.treatment).toMatchObject({
      celsius: 20,
      partsWater: null,
      minutes: null,
    });
    const long = withFigure<NotebookDocument>(SAMPLE, [...path, 'development', 'minutes'], -8);
    expect(soundFigures(long).document.strips[index]?.development).toBeNull();
  });
});
