/**
 * Which texts of a scene overlap: the check that every layout must pass at every size.
 */
import { overlaps, textBox, type Box } from '../text/place-labels.ts';
import type { Scene, TextMark } from './mark.ts';

/** Box of a text mark; turned texts are left out. */
function boxOf(mark: TextMark): Box | null {
  return mark.rotate === undefined ? textBox(mark.text, mark.size, mark, mark.bold) : null;
}

/** @returns pairs of texts whose boxes overlap, as `a | b` */
export function textOverlaps({ marks }: Scene): string[] {
  const texts = marks.flatMap((mark) => {
    const box = mark.kind === 'text' ? boxOf(mark) : null;
    return mark.kind === 'text' && box !== null ? [{ text: mark.text, box }] : [];
  });
  return texts.flatMap((a, i) =>
    texts
      .slice(i + 1)
      .filter((b) => overlaps(a.box, b.box))
      .map((b) => `${a.text} | ${b.text}`),
  );
}

/** @returns texts that stick out of the scene */
export function textsOutside({ marks, width, height }: Scene): string[] {
  return marks.flatMap((mark) => {
    const box = mark.kind === 'text' ? boxOf(mark) : null;
    if (mark.kind !== 'text' || box === null) return [];
    const inside = box.x0 >= -1 && box.y0 >= -1 && box.x1 <= width + 1 && box.y1 <= height + 1;
    return inside ? [] : [mark.text];
  });
}
