/** The marked ends of the two strips, and where they stand before the user has moved them. */
import type { PicturePoint, StripPlace } from '@wedgebook/core';

export const STRIP_KINDS = ['tablet', 'strip'] as const;
export type StripKind = (typeof STRIP_KINDS)[number];
export type EndKind = 'from' | 'to';

export type Marks = Readonly<Record<StripKind, StripPlace>>;

export interface MarkedEnd {
  readonly kind: StripKind;
  readonly end: EndKind;
}

/** The four ends in the order in which they are marked by pointing. */
export const ENDS: readonly MarkedEnd[] = STRIP_KINDS.flatMap((kind) => [
  { kind, end: 'from' },
  { kind, end: 'to' },
]);

/** Two strips along the longer side, a third of the shorter side apart. */
export function firstMarks(width: number, height: number): Marks {
  const wide = width >= height;
  const at = (along: number, across: number): PicturePoint =>
    wide
      ? { x: Math.round(along * width), y: Math.round(across * height) }
      : { x: Math.round(across * width), y: Math.round(along * height) };
  const strip = (across: number): StripPlace => ({
    from: at(0.08, across),
    to: at(0.92, across),
    width: Math.max(8, Math.round(0.2 * Math.min(width, height))),
  });
  return { tablet: strip(0.33), strip: strip(0.67) };
}

export function moveEnd(marks: Marks, { kind, end }: MarkedEnd, point: PicturePoint): Marks {
  return { ...marks, [kind]: { ...marks[kind], [end]: point } };
}

export function setWidth(marks: Marks, kind: StripKind, width: number): Marks {
  return { ...marks, [kind]: { ...marks[kind], width } };
}

/** The same strip, step 1 at its other end. */
export function turned(marks: Marks, kind: StripKind): Marks {
  const { from, to, width } = marks[kind];
  return { ...marks, [kind]: { from: to, to: from, width } };
}
