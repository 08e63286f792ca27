/**
 * The panes of the prints, all showing the same part of the picture: drag, pinch, wheel with Ctrl,
 * keys and buttons move and enlarge it in all of them at once.
 *
 * @fires wb-drawn - panes were painted; detail is a `Drawing`: how many, and the time that took
 * @fires wb-place - the user pointed at a place; detail is the pixel of the picture, or null
 */
import { css, html, LitElement, nothing, type PropertyValues, type TemplateResult } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import { sharedStyles } from '../parts/styles.ts';
import { picture as t } from '../text/picture.ts';
import { formatNumber } from '@wedgebook/charts';
import { PictureClient } from './picture-client.ts';
import type { PictureFacts } from './picture-messages.ts';
import {
  heldView,
  pixelAt,
  scaleOf,
  WHOLE,
  zoomedView,
  type PaneSize,
  type View,
} from './viewport.ts';

export interface Pane {
  readonly id: string;
  readonly title: string;
  readonly detail: string;
  /** Colours by tone; null hides the pane. */
  readonly table: Uint32Array | null;
}

/** Panes at most: four prints and a difference. */
const PANES = 5;
/** So far outside the window a pane is still painted, so that scrolling meets no stale one. */
const NEAR = '25%';
/** Between the panes, pixels as in the styles. */
const GAP = 14;
const KEY_STEP = 0.12;
const ZOOM_STEP = 1.5;

@customElement('wb-prints')
export class PrintsView extends LitElement {
  static override styles = [
    sharedStyles,
    css`
      .panes {
        display: grid;
        grid-template-columns: minmax(0, 1fr);
        gap: 14px;
        border-radius: 0.25rem;
      }
      .panes.wide {
        grid-template-columns: repeat(2, minmax(0, 1fr));
      }
      /* Captions of neighbours share a row, so that their pictures stand level. */
      .panes.wide figure {
        display: grid;
        grid-template-rows: subgrid;
        grid-row: span 2;
        row-gap: 0.35rem;
      }
      .panes.wide figure[hidden] {
        display: none;
      }
      .panes.wide .difference {
        grid-column: 1 / -1;
        width: calc(50% - 7px);
      }
      figure {
        margin: 0;
        min-width: 0;
      }
      figcaption {
        line-height: 1.3;
        margin-bottom: 0.35rem;
        min-height: 2.6em;
      }
      figcaption b {
        font-weight: 600;
      }
      figcaption span {
        display: block;
        font-size: 0.875rem;
        color: var(--quiet);
      }
      canvas {
        display: block;
        box-sizing: content-box;
        border: 1px solid var(--frame);
        cursor: crosshair;
        touch-action: pan-y;
      }
      @media print {
        canvas {
          max-width: 100%;
          height: auto !important;
          filter: var(--picture-on-paper, none);
        }
      }
      .zoomed canvas {
        cursor: grab;
        touch-action: none;
      }
      .tools {
        display: flex;
        flex-wrap: wrap;
        gap: 0.4rem;
        align-items: center;
        margin: 0.5rem 0;
      }
      .tools span {
        color: var(--quiet);
        font-size: 0.875rem;
      }
    `,
  ];

  @property({ attribute: false }) panes: readonly Pane[] = [];
  @property({ attribute: false }) facts: PictureFacts | null = null;
  /** Packed colour beside the picture. */
  @property({ type: Number }) ground = 0xff000000;
  @state() private view: View = WHOLE;
  @state() private width = 0;

  readonly client = new PictureClient((detail) => {
    this.dispatchEvent(new CustomEvent('wb-drawn', { detail }));
  });
  /** Panes in the window or near it: the others are painted when they come. */
  readonly #near = new Set<Element>();
  readonly #watcher = new IntersectionObserver(
    (entries) => {
      for (const { target, isIntersecting } of entries) {
        if (isIntersecting) this.#near.add(target);
        else this.#near.delete(target);
      }
      if (entries.some(({ isIntersecting }) => isIntersecting)) this.#draw();
    },
    { rootMargin: NEAR },
  );
  readonly #pointers = new Map<number, { x: number; y: number }>();
  readonly #observer = new ResizeObserver(([entry]) => {
    this.width = Math.floor(entry?.contentRect.width ?? 0);
  });

  override connectedCallback(): void {
    super.connectedCallback();
    this.#observer.observe(this);
    for (const canvas of this.#canvases) this.#watcher.observe(canvas);
  }

  override disconnectedCallback(): void {
    this.#observer.disconnect();
    this.#watcher.disconnect();
    this.#near.clear();
    super.disconnectedCallback();
  }

  protected override firstUpdated(): void {
    this.client.paintOn(this.#canvases);
    for (const canvas of this.#canvases) this.#watcher.observe(canvas);
    // Lit's listeners are passive where the browser likes; this one must stop the page's own zoom.
    this.renderRoot
      .querySelector('.panes')
      ?.addEventListener('wheel', this.onWheel, { passive: false });
  }

  protected override updated(changed: PropertyValues<this>): void {
    // A sketch that is replaced by the whole scene keeps the view.
    if (changed.has('facts') && changed.get('facts')?.name !== this.facts?.name) this.view = WHOLE;
    this.#draw();
  }

  /** Sides of a pane in pixels of the screen. */
  private get pane(): PaneSize {
    const columns = this.width >= 560 ? 2 : 1;
    const wide = Math.floor((this.width - (columns - 1) * GAP) / columns) - 2;
    const { width = 4, height = 3 } = this.facts ?? {};
    // A tall picture keeps to the window.
    const shown = Math.min(wide, (0.8 * globalThis.innerHeight * width) / height);
    return { width: Math.max(1, wide), height: Math.max(1, Math.round((shown * height) / width)) };
  }

  get #canvases(): readonly HTMLCanvasElement[] {
    return [...this.renderRoot.querySelectorAll('canvas')];
  }

  #draw(): void {
    if (this.facts === null || this.width === 0) return;
    const { width, height } = this.pane;
    const dense = Math.min(2, globalThis.devicePixelRatio);
    const pixels = { width: Math.round(width * dense), height: Math.round(height * dense) };
    const canvases = this.#canvases;
    for (const { style } of canvases) {
      // To the pixel: a picture that is stretched by a part of one takes thrice as long to show.
      style.width = `${pixels.width / dense}px`;
      style.height = `${pixels.height / dense}px`;
    }
    this.client.draw({
      ...pixels,
      view: this.view,
      tables: canvases.map((canvas, i) =>
        this.#near.has(canvas) ? (this.panes[i]?.table ?? null) : null,
      ),
      ground: this.ground,
    });
  }

  protected override render(): TemplateResult {
    const wide = this.width >= 560;
    const zoomed = this.view.zoom > 1;
    return html`<div class="tools no-print" role="group" aria-label=${t.viewTools}>
        <button
          @click=${() => {
            this.zoom(ZOOM_STEP);
          }}
        >
          ${t.zoomIn}
        </button>
        <button
          ?disabled=${!zoomed}
          @click=${() => {
            this.zoom(1 / ZOOM_STEP);
          }}
        >
          ${t.zoomOut}
        </button>
        <button
          ?disabled=${!zoomed}
          @click=${() => {
            this.view = WHOLE;
          }}
        >
          ${t.whole}
        </button>
        <span aria-live="polite">${t.zoomed(formatNumber(this.view.zoom, 1))}</span>
      </div>
      <div
        class=${`panes${wide ? ' wide' : ''}${zoomed ? ' zoomed' : ''}`}
        tabindex="0"
        role="group"
        aria-label=${t.view}
        aria-describedby="keys"
        @keydown=${this.onKey}
        @pointerdown=${this.onDown}
        @pointermove=${this.onMove}
        @pointerup=${this.onUp}
        @pointercancel=${this.onUp}
        @pointerleave=${this.onLeave}
      >
        ${Array.from({ length: PANES }, (_, i) => {
          const pane = this.panes[i];
          const hidden = pane === undefined || pane.table === null;
          return html`<figure ?hidden=${hidden} class=${i === PANES - 1 ? 'difference' : nothing}>
            <figcaption><b>${pane?.title}</b><span>${pane?.detail}</span></figcaption>
            <canvas
              role="img"
              aria-label=${pane === undefined ? '' : `${pane.title}. ${pane.detail}`}
            ></canvas>
          </figure>`;
        })}
      </div>
      <p class="quiet small no-print" id="keys">${t.keys}</p>`;
  }

  private zoom(factor: number, dx = 0, dy = 0): void {
    this.view = zoomedView(this.view, factor, dx, dy);
  }

  private move(dx: number, dy: number): void {
    const { zoom, x, y } = this.view;
    this.view = heldView({ zoom, x: x + dx / zoom, y: y + dy / zoom });
  }

  private readonly onKey = (event: KeyboardEvent): void => {
    if (event.ctrlKey || event.metaKey || event.altKey) return;
    const moves: Readonly<Record<string, () => void>> = {
      ArrowLeft: () => {
        this.move(-KEY_STEP, 0);
      },
      ArrowRight: () => {
        this.move(KEY_STEP, 0);
      },
      ArrowUp: () => {
        this.move(0, -KEY_STEP);
      },
      ArrowDown: () => {
        this.move(0, KEY_STEP);
      },
      '+': () => {
        this.zoom(ZOOM_STEP);
      },
      '=': () => {
        this.zoom(ZOOM_STEP);
      },
      '-': () => {
        this.zoom(1 / ZOOM_STEP);
      },
      '0': () => {
        this.view = WHOLE;
      },
    };
    const act = moves[event.key];
    if (act === undefined) return;
    // Arrows scroll the page while the whole picture is seen.
    if (event.key.startsWith('Arrow') && this.view.zoom === 1) return;
    event.preventDefault();
    act();
    const { facts } = this;
    if (facts === null) return;
    this.#tell({
      x: Math.min(facts.width - 1, Math.floor(this.view.x * facts.width)),
      y: Math.min(facts.height - 1, Math.floor(this.view.y * facts.height)),
    });
  };

  private readonly onWheel = (event: Event): void => {
    if (!(event instanceof WheelEvent) || !event.ctrlKey) return;
    const at = this.#at(event);
    if (at === null) return;
    event.preventDefault();
    this.zoom(2 ** (-event.deltaY / 200), at.x / at.width - 0.5, at.y / at.height - 0.5);
  };

  private readonly onDown = (event: PointerEvent): void => {
    const at = this.#at(event);
    if (at === null) return;
    this.#pointers.set(event.pointerId, { x: event.clientX, y: event.clientY });
    if (this.view.zoom > 1 && event.target instanceof Element) {
      event.target.setPointerCapture(event.pointerId);
    }
  };

  private readonly onMove = (event: PointerEvent): void => {
    const at = this.#at(event);
    const before = this.#pointers.get(event.pointerId);
    if (before !== undefined) this.#drag(event, before);
    if (at === null || this.facts === null) return;
    this.#tell(pixelAt(this.view, this.facts, at, at.x, at.y));
  };

  #drag(event: PointerEvent, before: { x: number; y: number }): void {
    const others = [...this.#pointers].filter(([id]) => id !== event.pointerId);
    const [other] = others;
    if (other !== undefined) {
      const [, fixed] = other;
      const distance = (p: { x: number; y: number }) => Math.hypot(p.x - fixed.x, p.y - fixed.y);
      const now = distance({ x: event.clientX, y: event.clientY });
      this.zoom(Math.max(0.5, Math.min(2, now / Math.max(1, distance(before)))));
    } else if (this.view.zoom > 1 && this.facts !== null) {
      const scale = scaleOf(this.view, this.facts, this.pane);
      const { zoom, x, y } = this.view;
      this.view = heldView({
        zoom,
        x: x + (before.x - event.clientX) / scale / this.facts.width,
        y: y + (before.y - event.clientY) / scale / this.facts.height,
      });
    }
    this.#pointers.set(event.pointerId, { x: event.clientX, y: event.clientY });
  }

  private readonly onUp = (event: PointerEvent): void => {
    this.#pointers.delete(event.pointerId);
  };

  private readonly onLeave = (): void => {
    this.#tell(null);
  };

  /** Place in the pane under the pointer, and the size of the pane. */
  #at(event: MouseEvent): (PaneSize & { readonly x: number; readonly y: number }) | null {
    const { target } = event;
    if (!(target instanceof HTMLCanvasElement)) return null;
    const box = target.getBoundingClientRect();
    const { width, height } = box;
    return { x: event.clientX - box.left, y: event.clientY - box.top, width, height };
  }

  #tell(pixel: { readonly x: number; readonly y: number } | null): void {
    this.dispatchEvent(new CustomEvent('wb-place', { detail: pixel }));
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'wb-prints': PrintsView;
  }
}
