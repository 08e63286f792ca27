/**
 * The print at the enlarger: areas burnt in or dodged, the table for the darkroom wall, another size
 * or aperture, dry-down and safelight, and the prints that were made.
 *
 * @slot - what stands before the areas, in the same column
 */
import { formatNumber } from '@wedgebook/charts';
import {
  darkroomTable,
  dryDown,
  LOG_STOP,
  timeForAperture,
  timeForMagnification,
  type AreaChange,
  type WholeExposure,
} from '@wedgebook/core';
import type { PrintArea, Printing } from '@wedgebook/notebook';
import { css, html, LitElement, nothing, type TemplateResult } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import { repeat } from 'lit/directives/repeat.js';
import { live } from 'lit/directives/live.js';
import { choiceOnly } from '../parts/fields.ts';
import { noticeStyles } from '../parts/notices.ts';
import { focusAfter } from '../parts/focus-after.ts';
import { framedTable, headRow } from '../parts/framed-table.ts';
import { sharedStyles } from '../parts/styles.ts';
import { AppController } from '../state/app-controller.ts';
import { exposuresOf, toneOf } from '../state/derive-areas.ts';
import type { PrintingView } from '../state/derive-printing.ts';
import type { SplitView } from '../state/derive-split.ts';
import { setPrinting } from '../state/set-printing.ts';
import { wall as words } from '../text/wall.ts';
import { newId } from '../worksheet/new-entries.ts';
import '../parts/number-field.ts';
import './printing-made.ts';

const LIGHTS = ['whole', 'soft', 'hard'] as const;
const USUAL_APERTURE = 8;

@customElement('wb-wall')
export class WallPart extends LitElement {
  static override styles = [
    sharedStyles,
    noticeStyles,
    css`
      #wall {
        min-width: 34rem;
      }
      .parts {
        display: grid;
        grid-template-columns: repeat(auto-fit, minmax(min(100%, 30rem), 1fr));
        gap: 0 clamp(1.5rem, 3vw, 3rem);
      }
      .parts > * {
        min-width: 0;
      }
      .fields {
        margin: 0.5rem 0;
        align-items: start;
      }
      wb-number {
        --field-width: 5rem;
      }
      .area {
        display: flex;
        flex-wrap: wrap;
        gap: 0.25rem 0.75rem;
        align-items: end;
        border-bottom: 1px solid var(--rule);
        padding: 0.4rem 0 0.6rem;
      }
      .area input.name {
        width: 9rem;
      }
      .becomes {
        min-width: 8rem;
        padding-bottom: 0.6rem;
      }
      .becomes small {
        display: block;
        color: var(--quiet);
        font-size: 0.875rem;
      }
      .timer {
        font-weight: 600;
      }
    `,
  ];

  /** The print, from the station. */
  @property({ attribute: false }) view: PrintingView | null = null;
  @property({ attribute: false }) split: SplitView | null = null;
  @state() private wantedMagnification: number | null = null;
  @state() private apertures: readonly [number, number] = [USUAL_APERTURE, USUAL_APERTURE];

  private readonly app = new AppController(this, ({ document }) => ({ document }));

  protected override render(): TemplateResult | typeof nothing {
    const now = this.app.value;
    const { view, split } = this;
    if (now === undefined || view === null) return nothing;
    const { printing } = now.document;
    const exposures = exposuresOf(printing);
    return html`<div class="parts">
      <div>
        <slot></slot>
        <h3>${words.areas}</h3>
        ${repeat(
          printing.areas,
          ({ id }) => id,
          (area) => this.areaTemplate(area, printing, view, split),
        )}
        <p><button id="add-area" @click=${this.addArea}>${words.addArea}</button></p>
        <h3>${words.title}</h3>
        ${exposures.length === 0 ? html`<p>${words.nothing}</p>` : stepsTemplate(exposures, printing.areas)}
      </div>
      <div>
        <h3>${words.size}</h3>
        ${this.sizeTemplate(printing)} ${this.dryTemplate(printing)}
        <wb-prints-made></wb-prints-made>
      </div>
    </div>`;
  }

  private areaTemplate(
    area: PrintArea,
    printing: Printing,
    view: PrintingView,
    split: SplitView | null,
  ): TemplateResult {
    const becomes = toneOf(area, printing, view, split);
    const change = (changes: Partial<PrintArea>, gesture = '') => {
      const areas = printing.areas.map((each) =>
        each.id === area.id ? { ...each, ...changes } : each,
      );
      this.set({ areas }, gesture === '' ? '' : `${area.id} ${gesture}`);
    };
    return html`<div class="area" data-area=${area.id}>
      <div>
        <label for=${`name-${area.id}`}>${words.area}</label>
        <input
          class="name"
          id=${`name-${area.id}`}
          aria-label=${words.nameOf}
          .value=${live(area.name)}
          @input=${(event: Event) => {
            change({ name: (event.target as HTMLInputElement).value }, 'name');
          }}
        />
      </div>
      <wb-number
        label=${words.density}
        key=${`area/${area.id}/density`}
        optional
        .value=${area.density}
        .min=${-0.5}
        .max=${6}
        .step=${0.05}
        .decimals=${2}
        @wb-value=${({ detail }: CustomEvent<number | null>) => {
          change({ density: detail }, 'density');
        }}
      ></wb-number>
      <div>
        <label for=${`light-${area.id}`}>${words.light}</label>
        ${choiceOnly({
          id: `light-${area.id}`,
          selected: area.light,
          options: LIGHTS.map((light) => [light, words.lights[light]] as const),
          onChoose: (chosen) => {
            change({ light: LIGHTS.find((light) => light === chosen) ?? 'whole' });
          },
        })}
      </div>
      <wb-number
        label=${words.stops}
        key=${`area/${area.id}/stops`}
        .value=${area.stops}
        .min=${-5}
        .max=${5}
        .step=${0.25}
        .decimals=${2}
        @wb-value=${({ detail }: CustomEvent<number>) => {
          change({ stops: detail }, 'stops');
        }}
      ></wb-number>
      ${
        becomes === null
          ? nothing
          : html`<span class="becomes"
              ><small>${words.becomes}</small>${words.from(becomes.before, becomes.after)}</span
            >`
      }
      <button
        class="remove"
        aria-label=${words.removeArea(area.name)}
        @click=${({ currentTarget }: Event) => {
          this.set({ areas: printing.areas.filter(({ id }) => id !== area.id) });
          void focusAfter(this, currentTarget, '.remove', '#add-area');
        }}
      >
        ${words.remove}
      </button>
    </div>`;
  }

  private readonly addArea = (): void => {
    const now = this.app.value;
    if (now === undefined) return;
    const { areas, softSeconds } = now.document.printing;
    const area: PrintArea = {
      id: newId(),
      name: words.newArea(areas.length + 1),
      density: this.view?.spots.highlight ?? null,
      light: softSeconds === null ? 'whole' : 'soft',
      stops: 0.5,
    };
    this.set({ areas: [...areas, area] });
  };

  private sizeTemplate(printing: Printing): TemplateResult {
    const wanted = this.wantedMagnification ?? printing.magnification;
    const [from, to] = this.apertures;
    const factor =
      timeForMagnification(1, printing.magnification, wanted) * timeForAperture(1, from, to);
    const stops = Math.log10(factor) / LOG_STOP;
    const base = printing.baseSeconds;
    const aperture = (which: 0 | 1, label: string) =>
      html`<wb-number
        label=${label}
        key=${`printing/aperture-${which}`}
        .value=${this.apertures[which]}
        .min=${1}
        .max=${90}
        .step=${1}
        .decimals=${1}
        @wb-value=${({ detail }: CustomEvent<number>) => {
          this.apertures = which === 0 ? [detail, to] : [from, detail];
        }}
      ></wb-number>`;
    const size = (label: string, key: string, value: number, tell: (value: number) => void) =>
      html`<wb-number
        label=${label}
        unit=${words.times}
        key=${key}
        .value=${value}
        .min=${0.1}
        .max=${60}
        .step=${0.5}
        .decimals=${2}
        @wb-value=${({ detail }: CustomEvent<number>) => {
          tell(detail);
        }}
      ></wb-number>`;
    return html`<div class="fields">
        ${size(words.magnification, 'printing/magnification', printing.magnification, (value) => {
          this.set({ magnification: value }, 'magnification');
        })}
        ${size(words.newMagnification, 'printing/new-magnification', wanted, (value) => {
          this.wantedMagnification = value;
        })}
        ${aperture(0, words.aperture)} ${aperture(1, words.newAperture)}
      </div>
      <p id="size">${words.change(factor, stops, base)}</p>`;
  }

  private dryTemplate(printing: Printing): TemplateResult {
    const { document } = this.app.value ?? {};
    const paper = document?.papers.find(({ id }) => id === document.plan.paperId);
    if (paper === undefined) {
      return html`<h3>${words.dry}</h3>
        <p>${words.dryDownHelp}</p>
        <p class="quiet">${words.noPaper}</p>
        ${safelightTemplate()}`;
    }
    const change = (changes: object, gesture: string) => {
      this.app.app.store.dispatch({
        type: 'paper/change',
        id: paper.id,
        changes,
        mergeKey: `${paper.id} ${gesture}`,
      });
    };
    const { dryDownPercent, safelightMinutes } = paper;
    const dried =
      dryDownPercent === null || printing.baseSeconds === null
        ? null
        : dryDown(printing.baseSeconds, dryDownPercent);
    return html`<h3>${words.dry}</h3>
      <div class="fields">
        <wb-number
          label=${words.dryDown}
          unit=${words.percent}
          key=${`paper/${paper.id}/dry-down`}
          optional
          .value=${dryDownPercent}
          .min=${0}
          .max=${50}
          .step=${1}
          .decimals=${1}
          @wb-value=${({ detail }: CustomEvent<number | null>) => {
            change({ dryDownPercent: detail }, 'dry-down');
          }}
        ></wb-number>
        <wb-number
          label=${words.safelight}
          unit=${words.minutes}
          key=${`paper/${paper.id}/safelight`}
          optional
          .value=${safelightMinutes}
          .min=${0}
          .max=${120}
          .step=${1}
          .decimals=${1}
          @wb-value=${({ detail }: CustomEvent<number | null>) => {
            change({ safelightMinutes: detail }, 'safelight');
          }}
        ></wb-number>
      </div>
      <p>${words.dryDownHelp}${dried === null ? nothing : html` ${words.dried(dried)}`}</p>
      ${safelightTemplate()}`;
  }

  private set(changes: Partial<Printing>, gesture = ''): void {
    setPrinting(this.app.app, changes, gesture);
  }
}

function safelightTemplate(): TemplateResult {
  return html`<details>
    <summary>${words.safelightTitle}</summary>
    <ol>
      ${words.safelightSteps.map((step) => html`<li>${step}</li>`)}
    </ol>
  </details>`;
}

function stepsTemplate(
  exposures: readonly WholeExposure[],
  areas: readonly PrintArea[],
): TemplateResult {
  const lights = new Set(exposures.map(({ light }) => light));
  const changes = areas.flatMap(({ name, light, stops }): AreaChange[] =>
    lights.has(light) && stops !== 0 ? [{ area: name, light, stops }] : [],
  );
  const steps = darkroomTable(exposures, changes);
  return html`<p>${words.says}</p>
    ${framedTable({
      label: words.table,
      id: 'wall',
      head: headRow([words.light, words.step], [words.timer, words.exact, words.total]),
      body: steps.map(
        (step) =>
          html`<tr>
            <td>${words.lights[step.light as PrintArea['light']]}</td>
            <th scope="row">${words.doWhat(step)}</th>
            <td class="number timer">${formatNumber(step.timerSeconds, 1)}</td>
            <td class="number">${formatNumber(step.seconds, 2)}</td>
            <td class="number">${formatNumber(step.cumulativeSeconds, 1)}</td>
          </tr>`,
      ),
    })}`;
}

declare global {
  interface HTMLElementTagNameMap {
    'wb-wall': WallPart;
  }
}
