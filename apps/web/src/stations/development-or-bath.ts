/** More contrast by longer development or by the bath, side by side, with the bath's cautions. */
import { formatClock, formatNumber } from '@wedgebook/charts';
import {
  bathForGain,
  developmentOrBath,
  surfaceCurve,
  type BathForGain,
  type DevelopmentOrBath,
  type TreatmentModel,
} from '@wedgebook/core';
import { cautionsFor, developmentDefaults } from '@wedgebook/data';
import { html, LitElement, type TemplateResult } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import { choice } from '../parts/fields.ts';
import { noticeStyles } from '../parts/notices.ts';
import { sharedStyles } from '../parts/styles.ts';
import type { DevelopmentView } from '../state/derive-development.ts';
import { memo } from '../state/memo.ts';
import type { SolvedSurface } from '../state/surface-solver.ts';
import { orBath as text } from '../text/development-more.ts';
import { development } from '../text/development.ts';
import { text as page } from '../text.ts';
import { developmentStyles } from './development-station.styles.ts';
import { cautionsTemplate } from './treatment-cautions.ts';
import { treatmentStyles } from './treatment-station.styles.ts';

const CAUTIONS = cautionsFor('selenium');
const STEPS = [0.5, 1, 1.5, 2] as const;

@customElement('wb-development-or-bath')
export class DevelopmentOrBathPart extends LitElement {
  static override styles = [sharedStyles, noticeStyles, treatmentStyles, developmentStyles];

  @property({ attribute: false }) view!: DevelopmentView;
  @property({ attribute: false }) solved: SolvedSurface | null = null;
  @property({ attribute: false }) model!: TreatmentModel;
  /** Dilution and temperature of the bath as the notebook plans it. */
  @property({ type: Number }) partsWater = 1;
  @property({ type: Number }) bathCelsius = 20;
  @state() private change = 1;

  readonly #compared = memo(compared);

  protected override render(): TemplateResult {
    const { view, solved, model, change, partsWater, bathCelsius } = this;
    const both = this.#compared(
      view.laws,
      view.plan,
      view.aim,
      view.settings,
      solved,
      model,
      change,
      partsWater,
      bathCelsius,
    );
    return html`<h3>${text.title(named(change))}</h3>
      <div class="halves">
        <div>
          <p>${text.says}</p>
          ${choice({
            id: 'step',
            label: text.change,
            selected: String(change),
            options: STEPS.map((step) => [String(step), named(step)]),
            onChoose: (step) => {
              this.change = Number(step);
            },
          })}
          ${both === null ? html`<p class="none">${text.none}</p>` : tableTemplate(both)}
        </div>
        <div>${cautionsTemplate(CAUTIONS, text.caution, 'bath-cautions')}</div>
      </div>`;
  }
}

/** Both ways, and the bath in minutes. */
interface Compared extends DevelopmentOrBath {
  readonly still: { readonly partsWater: number; readonly celsius: number };
  readonly inBath: BathForGain;
}

const named = (change: number): string => `N+${formatNumber(change, 1).replace(/\.0$/, '')}`;

function compared(
  { model, speed }: DevelopmentView['laws'],
  plan: DevelopmentView['plan'],
  aim: DevelopmentView['aim'],
  { celsius }: DevelopmentView['settings'],
  solved: SolvedSurface | null,
  bath: TreatmentModel,
  change: number,
  partsWater: number,
  bathCelsius: number,
): Compared | null {
  const normal = plan.find((row) => row.change === 0)?.minutes?.value;
  if (model === null || aim === null || normal === undefined) return null;
  // A file may hold any figures; the treatment station says which cannot be.
  const sound = partsWater >= 0 && partsWater <= 1000 && bathCelsius >= 0 && bathCelsius <= 60;
  if (!sound) return null;
  const surface = solved?.fit.status === 'ok' ? solved.fit.surface : null;
  const { texturalStops, usablePart, shortestMinutes } = developmentDefaults;
  const still = { partsWater, celsius: bathCelsius };
  const both = developmentOrBath(model, {
    normalContrast: aim.contrast,
    normalContrastError: aim.contrastError,
    texturalStops: aim.scene?.imageStops ?? texturalStops.value,
    celsius,
    speed,
    usablePart: usablePart.value,
    shortestMinutes: shortestMinutes.value,
    change,
    greatestGain: bathForGain(bath, 1, still).mostGain,
    curve: surface && (surfaceCurve(surface, normal, celsius)?.curve ?? null),
  });
  return { ...both, still, inBath: bathForGain(bath, both.gainAskedFor, still) };
}

function tableTemplate({ development: time, bath, gainAskedFor, normal, inBath, still }: Compared) {
  const asked = gainAskedFor * normal.contrast;
  const ways = [time, bath] as const;
  const row = (name: string, cells: readonly unknown[]) =>
    html`<tr>
      <th scope="row">${name}</th>
      ${cells.map((cell) => html`<td>${cell}</td>`)}
    </tr>`;
  return html`<table class="or-bath">
      <caption class="visually-hidden">
        ${text.says}
      </caption>
      <thead>
        <tr>
          <th scope="col"><span class="visually-hidden">${text.quantity}</span></th>
          <th scope="col">${text.development}</th>
          <th scope="col">${text.bath}</th>
        </tr>
      </thead>
      <tbody>
        ${row(
          text.reached,
          ways.map(({ contrast, reachable }) => text.ofAsked(contrast, asked, reachable)),
        )}
        ${row(
          text.gain,
          ways.map(({ gain }) => `×${formatNumber(gain, 2)}`),
        )}
        ${row(
          text.minutes,
          ways.map(({ minutes }) => (minutes === null ? page.none : formatClock(minutes.value))),
        )}
        ${row(text.inBath, [
          page.none,
          html`${text.bathMinutes(inBath, still)}<br /><span class="quiet small"
              >${text.bathSure(inBath, gainAskedFor)}</span
            >`,
        ])}
        ${row(
          text.index,
          ways.map(({ exposureIndex: index }) =>
            index === null ? page.none : development.index(index.arithmetic, index.degrees),
          ),
        )}
        ${row(
          text.speed,
          ways.map(({ speedChangeStops: stops }) =>
            stops === null ? page.none : text.stops(stops),
          ),
        )}
        ${row(
          text.graininess,
          ways.map(({ graininess, graininessAtLeast }) =>
            text.times(graininess, graininessAtLeast),
          ),
        )}
        ${row(
          text.worksOn,
          ways.map(({ commitment }) => text.worksOnWords[commitment.worksOn]),
        )}
        ${row(
          text.decided,
          ways.map(({ commitment }) => text.decidedWords[commitment.decided]),
        )}
        ${row(text.undone, [text.undoneDevelopment, text.undoneBath])}
        ${row(text.hazard, [text.hazardDevelopment, html`<b>${text.hazardBath}</b>`])}
      </tbody>
    </table>
    <p class="quiet small limits">${text.atLeast}</p>`;
}

declare global {
  interface HTMLElementTagNameMap {
    'wb-development-or-bath': DevelopmentOrBathPart;
  }
}
