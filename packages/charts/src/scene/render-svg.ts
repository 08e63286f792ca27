/**
 * Renders a scene to a complete SVG document with inline attributes: no style sheet, no script, no
 * reference outside itself, so that it prints, travels and opens anywhere.
 */
import type { Mark, PathMark, Scene, TextMark } from './mark.ts';
import { greyColour, px } from './mark.ts';
import { printPalette, type Palette } from './palette.ts';
import { FONT_FAMILY } from '../text/text-width.ts';

/**
 * A scene as an SVG document.
 *
 * @param scene - what to draw, in pixels
 * @param palette - a colour for each ink; the palette for paper by default
 * @returns text of an SVG document, UTF-8, ending in a line break
 */
export function renderSvg(scene: Scene, palette: Palette = printPalette): string {
  const { width, height } = scene;
  return [
    '<?xml version="1.0" encoding="UTF-8"?>',
    `<svg xmlns="http://www.w3.org/2000/svg" width="${px(width)}" height="${px(height)}" viewBox="0 0 ${px(width)} ${px(height)}" role="img" aria-labelledby="title description" font-family="${escapeXml(FONT_FAMILY)}">`,
    `<title id="title">${escapeXml(scene.title)}</title>`,
    `<desc id="description">${escapeXml(scene.description)}</desc>`,
    `<rect width="${px(width)}" height="${px(height)}" fill="${palette.ground}"/>`,
    ...scene.marks.map((mark) => renderMark(mark, palette)),
    '</svg>',
    '',
  ].join('\n');
}

function renderMark(mark: Mark, palette: Palette): string {
  if (mark.kind === 'text') return renderText(mark, palette);
  const attributes = [
    `d="${mark.d}"`,
    `fill="${fillOf(mark, palette)}"`,
    mark.stroke === null ? '' : `stroke="${palette[mark.stroke]}" stroke-width="${px(mark.width)}"`,
    mark.stroke === null ? '' : 'stroke-linejoin="round"',
    mark.dash === undefined ? '' : `stroke-dasharray="${mark.dash}"`,
    mark.opacity === undefined ? '' : `opacity="${mark.opacity}"`,
  ];
  return `<path ${attributes.filter((attribute) => attribute !== '').join(' ')}/>`;
}

function fillOf({ fill, grey }: PathMark, palette: Palette): string {
  if (grey !== undefined) return greyColour(grey);
  return fill === null ? 'none' : palette[fill];
}

function renderText(mark: TextMark, palette: Palette): string {
  const { x, y, rotate } = mark;
  const attributes = [
    `x="${px(x)}" y="${px(y)}" font-size="${px(mark.size)}" fill="${palette[mark.ink]}"`,
    mark.anchor === 'start' ? '' : `text-anchor="${mark.anchor}"`,
    mark.bold === true ? 'font-weight="600"' : '',
    mark.halo === true
      ? `stroke="${palette.ground}" stroke-width="4" stroke-linejoin="round" paint-order="stroke"`
      : '',
    rotate === undefined ? '' : `transform="rotate(${px(rotate)} ${px(x)} ${px(y)})"`,
  ];
  const joined = attributes.filter((attribute) => attribute !== '').join(' ');
  return `<text ${joined}>${escapeXml(mark.text)}</text>`;
}

function escapeXml(text: string): string {
  return text
    .replaceAll('&', '&amp;')
    .replaceAll('<', '&lt;')
    .replaceAll('>', '&gt;')
    .replaceAll('"', '&quot;');
}
