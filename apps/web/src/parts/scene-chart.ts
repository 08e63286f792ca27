/**
 * A drawing on the screen: the scene's marks as SVG whose colours come from the theme, and the
 * table of the same figures under it. The layout is asked for again when the width changes.
 */
import type { Mark, Scene, SceneTable } from '@wedgebook/charts';
import { FONT_FAMILY, greyColour } from '@wedgebook/charts';
import { css, html, LitElement, nothing, svg, type TemplateResult } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import { repeat } from 'lit/directives/repeat.js';
import { text } from '../text.ts';
import { sharedStyles } from './styles.ts';
import { Unchanged } from './unchanged.ts';

/** A number, a day or a range, which reads badly over two lines. */
const WHOLE = /^[\d.–−-][\d.\s–−-]*$/;

/** Lays a drawing out for a size in pixels. */
export type SceneLayout = (width: number, height: number) => Scene;

@customElement('wb-chart')
export class SceneChart extends LitElement {
  static override styles = [
    sharedStyles,
    css`
      :host {
        contain: layout paint;
      }
      svg {
        display: block;
        max-width: 100%;
        background: var(--surface);
        font-variant-numeric: tabular-nums;
        /* Nothing in it is pointed at: what lies under the pointer is sought at every key. */
        pointer-events: none;
      }
      /* A picture of its own: what lies over it is painted anew at every key, this is not. */
      .still {
        will-change: transform;
      }
      .frame {
        width: 100%;
        height: 100%;
        overflow: hidden;
      }
      .s-text {
        stroke: var(--text);
      }
      .s-quiet {
        stroke: var(--quiet);
      }
      .s-rule {
        stroke: var(--rule);
      }
      .s-frame {
        stroke: var(--frame);
      }
      .s-before {
        stroke: var(--before);
      }
      .s-after {
        stroke: var(--after);
      }
      .s-paper {
        stroke: var(--paper);
      }
      .s-other {
        stroke: var(--other);
      }
      .s-alert {
        stroke: var(--alert);
      }
      .s-ground {
        stroke: var(--surface);
      }
      .f-text {
        fill: var(--text);
      }
      .f-quiet {
        fill: var(--quiet);
      }
      .f-rule {
        fill: var(--rule);
      }
      .f-frame {
        fill: var(--frame);
      }
      .f-before {
        fill: var(--before);
      }
      .f-after {
        fill: var(--after);
      }
      .f-paper {
        fill: var(--paper);
      }
      .f-other {
        fill: var(--other);
      }
      .f-alert {
        fill: var(--alert);
      }
      .f-ground {
        fill: var(--surface);
      }
      .t-text,
      .t-alert {
        fill: var(--text);
      }
      .t-quiet,
      .t-frame,
      .t-rule {
        fill: var(--quiet);
      }
      .t-before {
        fill: var(--before-text);
      }
      .t-after {
        fill: var(--after-text);
      }
      .t-paper {
        fill: var(--paper-text);
      }
      .t-other {
        fill: var(--other-text);
      }
      .halo {
        stroke: var(--surface);
        stroke-width: 4px;
        stroke-linejoin: round;
        paint-order: stroke;
      }
      details {
        border-top: 1px solid var(--rule);
      }
      summary {
        font-size: 0.875rem;
        color: var(--quiet);
      }
      .whole {
        white-space: nowrap;
      }
      .tall {
        max-height: 24rem;
        overflow: auto;
      }
    `,
  ];

  /** Replace, never mutate. */
  @property({ attribute: false }) layout: SceneLayout | null = null;
  /** Height in pixels; 0 lets the layout choose. */
  @property({ type: Number }) height = 0;
  /** Its figures stand as a table beside it already. */
  @property({ type: Boolean }) tabled = false;
  @state() private width = 0;
  /** The table is made when it is unfolded: it would cost more than the drawing. */
  @state() private tableShown = false;

  private readonly unchanged = new Unchanged();

  private readonly observer = new ResizeObserver(([entry]) => {
    const width = Math.floor(entry?.contentRect.width ?? 0);
    if (width > 0) this.width = width;
  });

  override connectedCallback(): void {
    super.connectedCallback();
    this.observer.observe(this);
    addEventListener('beforeprint', this.onPrint);
  }

  override disconnectedCallback(): void {
    this.observer.disconnect();
    removeEventListener('beforeprint', this.onPrint);
    super.disconnectedCallback();
  }

  /** Out of sight a drawing is not laid out, and paper does not wait for the observer. */
  private readonly onPrint = (): void => {
    const width = Math.floor(this.getBoundingClientRect().width);
    if (this.width > 0 || width === 0) return;
    this.width = width;
    this.performUpdate();
  };

  /** The drawing as it stands, for export. */
  scene(): Scene | null {
    return this.layout === null || this.width === 0 ? null : this.layout(this.width, this.height);
  }

  protected override render(): TemplateResult | typeof nothing {
    const scene = this.scene();
    this.unchanged.begin();
    if (scene === null) return nothing;
    const { width, height, title, description, marks, still = 0 } = scene;
    const drawn = (some: readonly Mark[], part: string) => {
      const keys = keysOf(some);
      return repeat(
        some,
        (_, index) => keys[index],
        (mark, index) =>
          this.unchanged.draw(`${part} ${keys[index]}`, [mark], () => drawMark(mark)),
      );
    };
    const ground = marks.slice(0, still);
    const onGround = () => drawn(ground, 'still');
    return html`<svg
        role="img"
        aria-label=${`${title}. ${description}`}
        width=${width}
        height=${height}
        viewBox=${`0 0 ${width} ${height}`}
        font-family=${FONT_FAMILY}
      >
        ${still > 0 ? svg`<g class="still">${this.unchanged.draw('still', ground, onGround)}</g>` : nothing}
        ${drawn(marks.slice(still), 'live')}
      </svg>
      ${this.tabled ? nothing : this.figuresTemplate(scene)}`;
  }

  /** The scene makes its table when it is read: folded up, a keystroke does without. */
  private figuresTemplate(scene: Scene): TemplateResult {
    return html`<details
      class="no-print"
      @toggle=${(event: Event) => {
        this.tableShown = (event.target as HTMLDetailsElement).open;
      }}
    >
      <summary>${text.chart.table}</summary>
      ${this.tableShown ? tableTemplate(scene.table) : nothing}
    </details>`;
  }
}

function tableTemplate({ caption, columns, rows }: SceneTable): TemplateResult {
  return html`<div class="tall" tabindex="0" role="group" aria-label=${caption}>
    <table>
      <caption class="visually-hidden">
        ${caption}
      </caption>
      <thead>
        <tr>
          ${columns.map((column) => html`<th scope="col">${column}</th>`)}
        </tr>
      </thead>
      <tbody>
        ${rows.map(
          (row) =>
            html`<tr>
              ${row.map((cell) => html`<td class=${WHOLE.test(cell) ? 'whole' : nothing}>${cell}</td>`)}
            </tr>`,
        )}
      </tbody>
    </table>
  </div>`;
}

/**
 * A key for each mark, from its kind, name and ink and how many like it came before: a mark more
 * or less leaves the others' elements as they are.
 */
function keysOf(marks: readonly Mark[]): readonly string[] {
  const seen = new Map<string, number>();
  return marks.map((mark) => {
    const ink = mark.kind === 'text' ? mark.ink : `${mark.stroke} ${mark.fill}`;
    const like = `${mark.kind} ${mark.name} ${ink}`;
    const count = seen.get(like) ?? 0;
    seen.set(like, count + 1);
    return `${like} ${count}`;
  });
}

function drawMark(mark: Mark): TemplateResult {
  if (mark.kind === 'text') {
    const { x, y, rotate } = mark;
    const transform = rotate === undefined ? nothing : `rotate(${rotate} ${x} ${y})`;
    return svg`<text x=${x} y=${y} class=${`t-${mark.ink}${mark.halo === true ? ' halo' : ''}`}
      data-name=${mark.name ?? nothing} font-size=${mark.size} text-anchor=${mark.anchor}
      font-weight=${mark.bold === true ? 600 : 400} transform=${transform}>${mark.text}</text>`;
  }
  const { grey } = mark;
  // Opacity of the paint, not of the element, which would be painted apart and then blended.
  const fill = mark.fill === null || grey !== undefined ? '' : `f-${mark.fill}`;
  const line = mark.stroke === null ? '' : `s-${mark.stroke}`;
  return svg`<path d=${mark.d} class=${`${fill} ${line}`.trim()} data-name=${mark.name ?? nothing}
    fill=${grey === undefined ? (mark.fill === null ? 'none' : nothing) : greyColour(grey)} stroke-width=${mark.width}
    stroke-dasharray=${mark.dash ?? nothing}
    fill-opacity=${mark.opacity ?? nothing} stroke-opacity=${mark.opacity ?? nothing}
    stroke-linejoin="round"></path>`;
}

declare global {
  interface HTMLElementTagNameMap {
    'wb-chart': SceneChart;
  }
}
