/** The log of working baths: what went through each, and what is left in it. */
import { bathCapacity, InvalidArgumentError, type BathCapacity } from '@wedgebook/core';
import type { BathFilm, WorkingBath } from '@wedgebook/notebook';
import { css, html, LitElement, nothing, type TemplateResult } from 'lit';
import { customElement } from 'lit/decorators.js';
import { repeat } from 'lit/directives/repeat.js';
import { choiceOnly, dayEntry, textEntry } from '../parts/fields.ts';
import { focusAfter } from '../parts/focus-after.ts';
import { sharedStyles } from '../parts/styles.ts';
import { AppController } from '../state/app-controller.ts';
import { localDay } from '../state/local-day.ts';
import { text } from '../text.ts';
import { freshName, newId } from '../worksheet/new-entries.ts';
import '../parts/number-field.ts';

/** Mean net density of an ordinary negative, to be corrected by the user. */
const USUAL_DENSITY = 0.6;

@customElement('wb-baths')
export class BathLog extends LitElement {
  static override styles = [
    sharedStyles,
    css`
      wb-number {
        --field-width: 5rem;
      }
      .film {
        display: flex;
        flex-wrap: wrap;
        gap: 0.25rem 1rem;
        align-items: end;
        border-bottom: 1px solid var(--rule);
        padding: 0.4rem 0 0.6rem;
      }
      .field {
        flex: 0 1 12rem;
        min-width: 0;
      }
      .field input {
        width: 100%;
      }
      ul {
        list-style: none;
        margin: 0.5rem 0;
        padding: 0;
      }
      .add {
        max-width: 16rem;
      }
    `,
  ];

  private readonly app = new AppController(this, ({ document }, { bath }) => ({
    baths: document.baths,
    exponent: bath.model(document, document.plan.curveFamily).doseResponse.concentrationExponent
      .value,
  }));

  protected override render(): TemplateResult | typeof nothing {
    const view = this.app.value;
    if (view === undefined) return nothing;
    const t = text.bathLog;
    return html`<h3>${t.title}</h3>
      <p>${t.says}</p>
      ${repeat(
        view.baths,
        ({ id }) => id,
        (bath) => this.bathTemplate(bath, view.exponent),
      )}
      <p><button id="add-bath" @click=${this.add}>${t.add}</button></p>
      <p class="quiet small">${t.assumptions}</p>`;
  }

  private bathTemplate(bath: WorkingBath, exponent: number): TemplateResult {
    const t = text.bathLog;
    const capacity = capacityOf(bath, exponent);
    const { id } = bath;
    const field = (
      name: 'volumeMillilitres' | 'partsWater' | 'seleniumGramsPerLitre',
      label: string,
      { unit = '', lead = '', min = 0, max = 1000, optional = false },
    ): TemplateResult =>
      html`<wb-number
        data-field=${name}
        label=${label}
        unit=${unit}
        lead=${lead}
        ?optional=${optional}
        key=${`bath/${id}/${name}`}
        .value=${bath[name]}
        .min=${min}
        .max=${max}
        .step=${1}
        @wb-value=${({ detail }: CustomEvent<number | null>) => {
          this.change(bath, { [name]: detail }, name);
        }}
      ></wb-number>`;
    return html`<details open data-bath=${id}>
      <summary>${t.summary(bath)}</summary>
      <div class="fields">
        ${textEntry({
          id: `name-${id}`,
          label: t.bathName,
          value: bath.name,
          onType: (name) => {
            this.change(bath, { name }, 'name');
          },
        })}
        ${dayEntry(`mixed-${id}`, t.mixedOn, bath.mixedOn, (mixedOn) => {
          this.change(bath, { mixedOn }, 'mixed');
        })}
        ${field('volumeMillilitres', t.volume, { unit: 'ml', min: 1, max: 1e6 })}
        ${field('partsWater', t.dilution, { lead: '1+' })}
        ${field('seleniumGramsPerLitre', t.concentrate, { unit: t.concentrateUnit, min: 0.1, optional: true })}
      </div>
      <p class="capacity">
        ${capacity === null ? nothing : t.capacity(capacity, bath.films.length)}
      </p>
      <ul aria-label=${t.films}>
        ${repeat(
          bath.films,
          (film) => film.id,
          (film) => this.filmTemplate(bath, film),
        )}
      </ul>
      <div class="fields">
        <div class="field add">
          <label for=${`format-${id}`}>${t.addFilm}</label>
          ${choiceOnly({
            id: `format-${id}`,
            selected: '',
            options: [['', t.format], ...t.formats.map(([name]) => [name, name] as const)],
            onChoose: (format) => {
              this.addFilm(bath, format);
            },
          })}
        </div>
        <button
          class="remove-bath"
          @click=${({ currentTarget }: Event) => {
            this.app.app.store.dispatch({ type: 'bath/remove', id });
            this.app.say(text.match.removed(bath.name));
            void focusAfter(this, currentTarget, '.remove-bath', '#add-bath');
          }}
        >
          ${t.remove(bath.name)}
        </button>
      </div>
    </details>`;
  }

  private filmTemplate(bath: WorkingBath, film: BathFilm): TemplateResult {
    const t = text.bathLog;
    const changeFilm = (changes: Partial<BathFilm>, gesture: string): void => {
      const films = bath.films.map((each) => (each === film ? { ...each, ...changes } : each));
      this.change(bath, { films }, `${film.id}/${gesture}`);
    };
    const number = (
      name: 'areaSquareCentimetres' | 'meanNetDensity',
      label: string,
      min: number,
      max: number,
    ): TemplateResult =>
      html`<wb-number
        label=${label}
        key=${`bath/${bath.id}/${film.id}/${name}`}
        .value=${film[name]}
        .min=${min}
        .max=${max}
        .step=${name === 'meanNetDensity' ? 0.05 : 1}
        @wb-value=${({ detail }: CustomEvent<number>) => {
          changeFilm({ [name]: detail }, name);
        }}
      ></wb-number>`;
    return html`<li class="film" data-film=${film.id}>
      ${textEntry({
        id: `film-${film.id}`,
        label: t.filmName,
        value: film.name,
        onType: (name) => {
          changeFilm({ name }, 'name');
        },
      })}
      ${dayEntry(`day-${film.id}`, t.day, film.day, (day) => {
        changeFilm({ day }, 'day');
      })}
      ${number('areaSquareCentimetres', t.area, 0.1, 1e6)}
      ${number('meanNetDensity', t.density, 0, 6)}
      <button
        class="remove-film"
        aria-label=${t.remove(film.name)}
        @click=${({ currentTarget }: Event) => {
          this.change(bath, { films: bath.films.filter((each) => each !== film) });
          this.app.say(text.match.removed(film.name));
          const alike = `[data-bath="${bath.id}"] .remove-film`;
          void focusAfter(this, currentTarget, alike, `[data-bath="${bath.id}"] .add select`);
        }}
      >
        ✕
      </button>
    </li>`;
  }

  private change(bath: WorkingBath, changes: Partial<WorkingBath>, gesture?: string): void {
    this.app.app.store.dispatch({
      type: 'bath/change',
      id: bath.id,
      changes,
      ...(gesture === undefined ? {} : { mergeKey: `bath/${bath.id}/${gesture}` }),
    });
  }

  private readonly add = (): void => {
    const { document } = this.app.app.store.state;
    this.app.app.store.dispatch({
      type: 'bath/add',
      entry: {
        id: newId(),
        name: freshName(text.bathLog.name, document.baths),
        process: document.plan.process,
        mixedOn: localDay(),
        volumeMillilitres: 1000,
        partsWater: document.plan.partsWater,
        seleniumGramsPerLitre: null,
        films: [],
        note: '',
      },
    });
  };

  private addFilm(bath: WorkingBath, format: string): void {
    const area = text.bathLog.formats.find(([name]) => name === format)?.[1];
    if (area === undefined) return;
    const film: BathFilm = {
      id: newId(),
      name: format,
      day: localDay(),
      areaSquareCentimetres: area,
      meanNetDensity: USUAL_DENSITY,
    };
    this.change(bath, { films: [...bath.films, film] });
  }
}

/** Null where an opened notebook holds figures that make no bath. */
function capacityOf(bath: WorkingBath, exponent: number): BathCapacity | null {
  try {
    return bathCapacity(bath, exponent);
  } catch (error) {
    if (error instanceof InvalidArgumentError) return null;
    throw error;
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'wb-baths': BathLog;
  }
}
