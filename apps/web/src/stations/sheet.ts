/**
 * The curve sheet that stands beside every station: the chosen strip before and after the bath,
 * and the negative's range inside the paper's scale. Above it, the verdict in one line.
 */
import {
  layoutCurveSheet,
  layoutRangeRuler,
  renderSvg,
  sheetDensities,
  sheetHasRoomForPaper,
  type SheetPaperFit,
  type SheetSeries,
} from '@wedgebook/charts';
import type { CurveFamily } from '@wedgebook/core';
import type { Strip } from '@wedgebook/notebook';
import { css, html, LitElement, nothing, type TemplateResult } from 'lit';
import { customElement, state } from 'lit/decorators.js';
import { download } from '../parts/download.ts';
import type { SceneChart, SceneLayout } from '../parts/scene-chart.ts';
import { SteadyAxis, type Ends } from '../parts/steady-axis.ts';
import { sharedStyles } from '../parts/styles.ts';
import type { App, View } from '../state/app.ts';
import { AppController } from '../state/app-controller.ts';
import type { BathView } from '../state/derive-bath.ts';
import { memo } from '../state/memo.ts';
import { paperFit } from '../state/paper-fit.ts';
import { text } from '../text.ts';
import '../parts/scene-chart.ts';

/** What the sheet draws. */
interface SheetView {
  readonly input: SheetInput;
  readonly bath: BathView;
}

interface SheetInput {
  readonly title: string;
  readonly exposureKind: 'absolute' | 'relative';
  readonly series: readonly SheetSeries[];
  readonly speedPoint: { readonly logExposure: number; readonly density: number } | null;
  readonly baseFog: number | null;
  readonly fit: SheetPaperFit | null;
}

@customElement('wb-sheet')
export class Sheet extends LitElement {
  static override styles = [
    sharedStyles,
    css`
      figure {
        margin: 0;
        background: var(--surface);
        border: 1px solid var(--rule);
        border-radius: 0.375rem;
        padding: 0.9rem 0.9rem 0.3rem;
      }
      .verdict {
        font-family:
          'Iowan Old Style', 'Palatino Linotype', Palatino, 'Liberation Serif', Georgia, serif;
        font-size: clamp(1.15rem, 0.9rem + 0.8vw, 1.7rem);
        line-height: 1.25;
        margin: 0 0 0.6rem;
        max-width: none;
        text-wrap: balance;
      }
      .tools {
        display: flex;
        flex-wrap: wrap;
        gap: 0.25rem 1.25rem;
        align-items: center;
        justify-content: space-between;
        font-size: 0.875rem;
      }
      .tools label {
        display: inline-flex;
        gap: 0.5rem;
        align-items: center;
        min-height: 2.75rem;
        margin: 0;
      }
    `,
  ];

  @state() private size = { width: 0, height: 0 };

  readonly #view = memo(sheetView);
  readonly #layout = memo(
    (input: SheetInput, densities: Ends): SceneLayout =>
      (width) =>
        layoutCurveSheet({ ...input, densities, width, height: this.sheetHeight(width) }),
  );
  readonly #axis = new SteadyAxis(() => {
    this.requestUpdate();
    return this.updateComplete;
  });
  readonly #ruler = memo(
    (fit: SheetPaperFit): SceneLayout =>
      (width) =>
        layoutRangeRuler({ ...fit, width, title: text.sheetFigure.rulerTitle }),
  );
  private readonly observer = new ResizeObserver(([entry]) => {
    const { width = 0 } = entry?.contentRect ?? {};
    this.size = { width: Math.floor(width), height: globalThis.innerHeight };
  });

  private readonly app = new AppController(this, (view: View, app: App): SheetView | null => {
    const bath = app.bath.view(
      view.document,
      view.document.plan.curveFamily,
      view.document.plan.targetGrade,
    );
    const strip = app.derive.stripOf(view.document, view.session.stripId);
    return strip === null
      ? null
      : {
          input: this.#view(
            view.document,
            view.document.plan.curveFamily,
            view.session.showFamilyOfStrips,
            strip,
            bath,
            app,
          ),
          bath,
        };
  });

  override connectedCallback(): void {
    super.connectedCallback();
    this.observer.observe(this);
  }

  override disconnectedCallback(): void {
    this.observer.disconnect();
    this.#axis.release();
    super.disconnectedCallback();
  }

  protected override render(): TemplateResult | typeof nothing {
    const view = this.app.value;
    if (view === undefined || view === null)
      return html`<figure><p>${text.sheetFigure.empty}</p></figure>`;
    const { input, bath } = view;
    const densities = this.#axis.hold(input.title, sheetDensities(input));
    const narrow = !sheetHasRoomForPaper(this.size.width - 30);
    return html`<figure>
      <p class="verdict">
        ${input.series.some(({ line }) => line.length > 0) ? text.sheetFigure.verdict(bath) : text.sheetFigure.noCurve}
      </p>
      <wb-chart id="sheet" .layout=${this.#layout(input, densities)}></wb-chart>
      ${
        narrow && input.fit !== null
          ? html`<wb-chart .layout=${this.#ruler(input.fit)}></wb-chart>`
          : nothing
      }
      <div class="tools no-print">
        <label>
          <input
            type="checkbox"
            .checked=${this.app.app.session.value.showFamilyOfStrips}
            @change=${(event: Event) => {
              this.app.app.session.set({
                showFamilyOfStrips: (event.target as HTMLInputElement).checked,
              });
            }}
          />
          ${text.sheetFigure.showOthers}
        </label>
        <button @click=${this.save}>${text.sheetFigure.save}</button>
      </div>
    </figure>`;
  }

  /** Tall enough to read, never taller than the window when the sheet stands beside the page. */
  private sheetHeight(width: number): number {
    // Beside the columns the curves are narrow: height keeps their labels apart.
    const least = sheetHasRoomForPaper(width) ? 440 : 340;
    const wanted = Math.min(760, Math.max(least, width * 0.66));
    const room = (this.size.height || globalThis.innerHeight) - 250;
    return Math.round(Math.max(300, Math.min(wanted, room)));
  }

  private readonly save = (): void => {
    const scene = this.renderRoot.querySelector<SceneChart>('#sheet')?.scene();
    if (scene === undefined || scene === null) return;
    download(text.sheetFigure.fileName, renderSvg(scene), 'image/svg+xml');
  };
}

function sheetView(
  document: View['document'],
  family: CurveFamily,
  showFamily: boolean,
  strip: Strip,
  bath: BathView,
  app: App,
): SheetInput {
  const { derive } = app;
  // A treated strip is drawn beside the untreated one that it is compared with.
  const partner = derive.stripOf(document, strip.treatment?.untreatedStripId ?? null);
  const main = partner ?? strip;
  const fit = derive.fit(document, main, family);
  const { line, band } = derive.drawn(main, fit);
  const isFilm = main.material === 'film';
  const series: SheetSeries[] = [];
  for (const other of document.strips) {
    if (other === main || other.material !== main.material) continue;
    // Beside a strip stand its own toned twins, and the untreated strips of the same film;
    // control strips lie on one another and would hide them.
    const isTwin = other.treatment?.untreatedStripId === main.id;
    const isSibling = other.treatment === null && other.filmId === main.filmId && !other.control;
    if (other !== strip && !(showFamily && (isTwin || isSibling))) continue;
    const otherFit = derive.fit(document, other, family);
    if (otherFit.curve === null) continue;
    series.push({
      id: other.id,
      label: other.name,
      role: 'other',
      line: derive.drawn(other, otherFit).line,
      markers: other === strip ? readingsOf(otherFit.readings) : [],
    });
  }
  series.push({
    id: 'before',
    label: main.name,
    role: isFilm ? 'before' : 'paper',
    line,
    band,
    markers: readingsOf(fit.readings),
  });
  if (isFilm && fit.curve !== null) {
    series.push({
      id: 'after',
      label: text.sheetFigure.after,
      role: 'after',
      line: app.bath.treatedLine(fit, bath.model, document.plan),
      markers: [],
    });
  }
  const measures = isFilm ? derive.film(main, fit) : null;
  const speedX = measures?.speedPoint?.logExposure.value;
  return {
    title: text.sheetFigure.title(main.name),
    exposureKind: fit.readings.exposureKind,
    series,
    baseFog: measures?.baseFog.value ?? null,
    speedPoint:
      measures === null || speedX === undefined
        ? null
        : { logExposure: speedX, density: measures.baseFog.value + 0.1 },
    fit: isFilm ? paperFit(bath, main, document.plan.minutes) : null,
  };
}

function readingsOf(readings: {
  readonly logExposures: readonly number[];
  readonly densities: readonly number[];
}): { logExposure: number; density: number }[] {
  return readings.logExposures.map((logExposure, i) => ({
    logExposure,
    density: readings.densities[i] ?? 0,
  }));
}

declare global {
  interface HTMLElementTagNameMap {
    'wb-sheet': Sheet;
  }
}
