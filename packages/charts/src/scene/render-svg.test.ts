import { describe, expect, it } from 'vitest';
import { layoutCurveSheet } from '../curve-sheet/curve-sheet.layout.ts';
import { sampleSheet } from '../curve-sheet/sample-sheet.ts';
import type { Scene } from './mark.ts';
import { printPalette } from './palette.ts';
import { renderSvg } from './render-svg.ts';

/** Relative luminance and contrast by WCAG 2.2, success criterion 1.4.3 (published, W3C). */
function contrast(a: string, b: string): number {
  const luminance = (hex: string) => {
    const [r = 0, g = 0, blue = 0] = [1, 3, 5].map((i) => {
      const c = parseInt(hex.slice(i, i + 2), 16) / 255;
      return c <= 0.04045 ? c / 12.92 : ((c + 0.055) / 1.055) ** 2.4;
    });
    return 0.2126 * r + 0.7152 * g + 0.0722 * blue;
  };
  const [high = 0, low = 0] = [luminance(a), luminance(b)].sort((x, y) => y - x);
  return (high + 0.05) / (low + 0.05);
}

describe('renderSvg', () => {
  it('gives a document that stands alone: no style, no script, no reference outside', () => {
    const svg = renderSvg(layoutCurveSheet(sampleSheet({ width: 900 })));
    expect(svg).toMatch(/^<\?xml version="1.0" encoding="UTF-8"\?>\n<svg /);
    expect(svg).not.toMatch(/<script|<style|style=|href|url\(|class=/);
    expect(svg.match(/<text /g)).toHaveLength(svg.match(/<\/text>/g)!.length);
    expect(svg).not.toMatch(/NaN|undefined|Infinity/);
  });

  it('escapes what a user named', () => {
    const scene: Scene = {
      width: 10,
      height: 10,
      title: 'A & "B" <c>',
      description: '',
      table: { caption: '', columns: [], rows: [] },
      marks: [],
    };
    expect(renderSvg(scene)).toContain('<title id="title">A &amp; &quot;B&quot; &lt;c&gt;</title>');
  });

  it('prints text at 4.5:1 and lines at 3:1 on white (WCAG 2.2, published)', () => {
    for (const ink of ['text', 'quiet', 'before', 'after', 'paper', 'alert'] as const) {
      expect(contrast(printPalette[ink], '#ffffff'), ink).toBeGreaterThanOrEqual(4.5);
    }
    for (const ink of ['frame', 'other'] as const) {
      expect(contrast(printPalette[ink], '#ffffff'), ink).toBeGreaterThanOrEqual(3);
    }
  });
});
