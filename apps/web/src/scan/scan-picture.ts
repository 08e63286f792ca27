/**
 * The scan with both strips marked on it. Pointing places the end that is asked for; an end can also
 * be dragged. What is typed elsewhere shows here at once.
 *
 * @fires wb-end - the user placed an end; detail is { kind, end, point }
 */
import { pointOnStrip, stripAxes, type PatchRow, type StripPlace } from '@wedgebook/core';
import { css, html, LitElement, nothing, svg, type PropertyValues, type TemplateResult } from 'lit';
import { customElement, property, query, state } from 'lit/decorators.js';
import { sharedStyles } from '../parts/styles.ts';
import { scan as t } from '../text/scan.ts';
import { ENDS, STRIP_KINDS, type MarkedEnd, type Marks, type StripKind } from './marks.ts';
import { nameOfEnd } from './name-of-end.ts';
import type { ScanFacts } from './scan-messages.ts';

/** Steps as found, or null before the strips were read. */
export type FoundRows = Readonly<Record<StripKind, PatchRow>> | null;

/** A finger's reach, pixels of the screen. */
const REACH = 22;
const LABEL = 14;

@customElement('wb-scan-picture')
export class ScanPicture extends LitElement {
  static override styles = [
    sharedStyles,
    css`
      .stage {
        position: relative;
        border: 1px solid var(--frame);
        background: #000;
      }
      canvas {
        display: block;
        width: 100%;
        max-height: 80vh;
        object-fit: contain;
      }
      svg {
        position: absolute;
        inset: 0;
        width: 100%;
        height: 100%;
        cursor: crosshair;
        touch-action: manipulation;
      }
      .halo {
        stroke: #000;
        fill: none;
        vector-effect: non-scaling-stroke;
      }
      .line {
        stroke: var(--mark);
        fill: none;
        vector-effect: non-scaling-stroke;
      }
      .handle {
        fill: transparent;
        touch-action: none;
        cursor: move;
      }
      :host {
        --mark: #ffffff;
      }
      :host([red]) {
        --mark: #ff0000;
      }
      text {
        fill: var(--mark);
        stroke: #000;
        paint-order: stroke;
        font-weight: 600;
      }
    `,
  ];

  @property({ attribute: false }) facts: ScanFacts | null = null;
  @property({ attribute: false }) bitmap: ImageBitmap | null = null;
  @property({ attribute: false }) marks: Marks | null = null;
  @property({ attribute: false }) rows: FoundRows = null;
  @property({ attribute: false }) next: MarkedEnd = { kind: 'tablet', end: 'from' };
  @property({ type: Boolean, reflect: true }) red = false;
  @query('canvas') private readonly canvas!: HTMLCanvasElement | null;
  @query('svg') private readonly drawing!: SVGSVGElement | null;
  @state() private shown = 0;
  #dragged: MarkedEnd | null = null;
  #moved = false;
  readonly #observer = new ResizeObserver(([entry]) => {
    this.shown = entry?.contentRect.width ?? 0;
  });

  override connectedCallback(): void {
    super.connectedCallback();
    this.#observer.observe(this);
  }

  override disconnectedCallback(): void {
    this.#observer.disconnect();
    super.disconnectedCallback();
  }

  protected override updated(changed: PropertyValues<this>): void {
    const { canvas, bitmap } = this;
    if (!changed.has('bitmap') || canvas === null || bitmap === null) return;
    canvas.width = bitmap.width;
    canvas.height = bitmap.height;
    canvas.getContext('2d', { alpha: false })?.drawImage(bitmap, 0, 0);
  }

  protected override render(): TemplateResult | typeof nothing {
    const { facts, marks } = this;
    if (facts === null || marks === null) return nothing;
    const { width, height } = facts;
    return html`<div class="stage">
      <canvas role="img" aria-label=${t.picture}></canvas>
      <svg
        viewBox=${`0 0 ${width} ${height}`}
        aria-hidden="true"
        @pointerdown=${this.onDown}
        @pointermove=${this.onMove}
        @pointerup=${this.onUp}
        @pointercancel=${this.onUp}
      >
        ${STRIP_KINDS.map((kind) => this.stripTemplate(kind, marks[kind], facts))}
      </svg>
    </div>`;
  }

  private stripTemplate(kind: StripKind, place: StripPlace, facts: ScanFacts): TemplateResult {
    const path = outline(place, this.rows?.[kind] ?? null);
    // As large as the text of the page, whatever the size of the picture.
    const size = (LABEL * facts.width) / Math.max(200, this.shown);
    const dash = kind === 'tablet' ? '7 4' : nothing;
    return svg`<path class="halo" d=${path} stroke-width="4"></path>
      <path class="line" d=${path} stroke-width="1.5" stroke-dasharray=${dash}></path>
      ${ENDS.filter((end) => end.kind === kind).map((end) => {
        const point = place[end.end];
        const label = nameOfEnd(kind, place, end.end, size, facts);
        const chosen = this.next.kind === kind && this.next.end === end.end;
        return svg`<circle class="halo" cx=${point.x} cy=${point.y} r=${size / 3} stroke-width="5"></circle>
          <circle class="line" cx=${point.x} cy=${point.y} r=${size / 3} stroke-width=${chosen ? 4 : 2}></circle>
          <circle class="handle" cx=${point.x} cy=${point.y} r=${(size * REACH) / LABEL}></circle>
          <text x=${label.x} y=${label.y} font-size=${size} stroke-width=${size / 5}
            text-anchor=${label.anchor}>${t.ends[end.end](kind)}</text>`;
      })}`;
  }

  private readonly onDown = (event: PointerEvent): void => {
    const point = this.#pointOf(event);
    if (point === null || !event.isPrimary) return;
    this.#dragged = this.#endNear(event) ?? null;
    if (this.#dragged === null) {
      this.#tell(this.next, point, true);
      return;
    }
    event.preventDefault();
    this.#moved = false;
    this.drawing?.setPointerCapture(event.pointerId);
  };

  private readonly onMove = (event: PointerEvent): void => {
    const point = this.#dragged === null ? null : this.#pointOf(event);
    if (point === null || this.#dragged === null) return;
    this.#moved = true;
    this.#tell(this.#dragged, point, false);
  };

  /** A press near an end that does not move it is pointing: it places the end that is asked for. */
  private readonly onUp = (event: PointerEvent): void => {
    const pressed = this.#dragged !== null && !this.#moved;
    this.#dragged = null;
    const point = pressed && event.type === 'pointerup' ? this.#pointOf(event) : null;
    if (point !== null) this.#tell(this.next, point, true);
  };

  #endNear(event: PointerEvent): MarkedEnd | undefined {
    const matrix = this.drawing?.getScreenCTM();
    const { marks } = this;
    if (!matrix || marks === null) return undefined;
    return ENDS.find(({ kind, end }) => {
      const { x, y } = new DOMPoint(marks[kind][end].x, marks[kind][end].y).matrixTransform(matrix);
      return Math.hypot(x - event.clientX, y - event.clientY) < REACH;
    });
  }

  /** The place in the picture under a pointer, held inside it. */
  #pointOf(event: PointerEvent): { x: number; y: number } | null {
    const matrix = this.drawing?.getScreenCTM();
    if (!matrix || this.facts === null) return null;
    const { x, y } = new DOMPoint(event.clientX, event.clientY).matrixTransform(matrix.inverse());
    const hold = (at: number, limit: number) => Math.round(Math.min(limit, Math.max(0, at)));
    return { x: hold(x, this.facts.width), y: hold(y, this.facts.height) };
  }

  #tell(which: MarkedEnd, point: { x: number; y: number }, advance: boolean): void {
    this.dispatchEvent(new CustomEvent('wb-end', { detail: { ...which, point, advance } }));
  }
}

/** Outline of a strip, and its steps where they were found. */
function outline(place: StripPlace, row: PatchRow | null): string {
  if (Math.hypot(place.to.x - place.from.x, place.to.y - place.from.y) < 8 || place.width < 4) {
    return '';
  }
  const axes = stripAxes(place);
  const half = place.width / 2;
  const at = (along: number, across: number): string => {
    const { x, y } = pointOnStrip(place, axes, along, across);
    return `${x.toFixed(1)},${y.toFixed(1)}`;
  };
  const [first, last] =
    row === null ? [0, axes.length] : [row.start, row.start + row.count * row.pitch];
  const box = `M${at(first, -half)}L${at(last, -half)}L${at(last, half)}L${at(first, half)}Z`;
  if (row === null) return box;
  const steps = Array.from({ length: row.count - 1 }, (_, k) => {
    const along = row.start + (k + 1) * row.pitch;
    return `M${at(along, -half)}L${at(along, half)}`;
  });
  return box + steps.join('');
}

declare global {
  interface HTMLElementTagNameMap {
    'wb-scan-picture': ScanPicture;
  }
}
