import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { renderSvg } from '../scene/render-svg.ts';
import { textOverlaps, textsOutside } from '../scene/text-overlaps.ts';
import { layoutZoneLadder, type ZoneLadderInput } from './zone-ladder.layout.ts';

const ZONES = ['0', 'I', 'II', 'III', 'IV', 'V', 'VI', 'VII', 'VIII', 'IX', 'X'];

function ladder(width: number, grey: boolean, contrast = 1, paper = true): ZoneLadderInput {
  return {
    width,
    title: 'Zone ladder',
    grey,
    rows: ['N-1', 'N', 'N+1'].map((development) => ({
      development,
      detail: '8:40 min, exposure index 64',
      rungs: ZONES.map((zone, i) => ({
        zone,
        density: 0.12 + 0.15 * i * contrast,
        print: paper
          ? { density: 2 - 0.19 * i, lightness: 10 * i, grey: Math.round(25.5 * i) }
          : null,
        extrapolated: i === 10,
      })),
    })),
  };
}

describe('zone ladder', () => {
  it('lets no two texts overlap and none leave it, from 300 pixels up', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 300, max: 1200 }),
        fc.double({ min: 0.1, max: 3, noNaN: true }),
        fc.boolean(),
        (width, contrast, paper) => {
          const scene = layoutZoneLadder(ladder(width, true, contrast, paper));
          expect(textOverlaps(scene)).toEqual([]);
          expect(textsOutside(scene)).toEqual([]);
        },
      ),
    );
  });

  it('paints each patch in the grey that it is given, in the export too', () => {
    const scene = layoutZoneLadder(ladder(600, true));
    const patches = scene.marks.filter(({ name }) => name === 'zone-patch');
    expect(patches).toHaveLength(33);
    expect(patches[5]).toMatchObject({ grey: 128 });
    expect(renderSvg(scene)).toContain('fill="#808080"');
  });

  it('has no grey where none may be shown: bars as high as the lightness', () => {
    const scene = layoutZoneLadder(ladder(600, false));
    expect(scene.marks.some((mark) => mark.kind === 'path' && mark.grey !== undefined)).toBe(false);
    const bars = scene.marks.filter(({ name }) => name === 'zone-bar');
    const heights = bars
      .slice(0, 11)
      .map((mark) => Number(/v([\d.]+)/.exec(mark.kind === 'path' ? mark.d : '')?.[1]));
    expect(heights[0]).toBe(0);
    expect(heights[10]).toBe(30);
    expect(heights).toEqual([...heights].sort((a, b) => a - b));
  });

  it('marks what lies outside the exposures read by a broken outline', () => {
    const dashed = layoutZoneLadder(ladder(600, true)).marks.filter(
      (mark) => mark.kind === 'path' && mark.dash !== undefined,
    );
    expect(dashed).toHaveLength(3);
  });

  it('lists every zone of every development in its table', () => {
    const { table, description } = layoutZoneLadder(ladder(600, true));
    expect(table.rows).toHaveLength(33);
    expect(table.rows[0]).toEqual(['N−1', '0', '0.12', '2.00', '0']);
    expect(description).toContain('N+1 (8:40 min, exposure index 64): 0 0, I 10');
  });
});
