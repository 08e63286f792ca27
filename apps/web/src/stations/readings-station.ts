/**
 * First station: the strips and their readings. A rack of strips to choose from, the facts of the
 * chosen one, and its typing sheet.
 */
import { nominalTablets } from '@wedgebook/data';
import type { Strip } from '@wedgebook/notebook';
import { css, html, LitElement, nothing, type TemplateResult } from 'lit';
import { customElement } from 'lit/decorators.js';
import { live } from 'lit/directives/live.js';
import { repeat } from 'lit/directives/repeat.js';
import { noticeStyles, warningList } from '../parts/notices.ts';
import { sharedStyles } from '../parts/styles.ts';
import type { ReadingUnit } from '../state/app.ts';
import { AppController } from '../state/app-controller.ts';
import { builtInTablet } from '../state/tablets.ts';
import type { WorkCommand } from '../state/work.ts';
import { text } from '../text.ts';
import { newId, newStrip, newTreatedStrip } from '../worksheet/new-entries.ts';
import { parseNumber } from '../worksheet/parse-cell.ts';
import '../parts/number-field.ts';
import '../worksheet/worksheet.ts';

const UNITS: readonly ReadingUnit[] = ['density', 'transmittance', 'stops'];

@customElement('wb-readings')
export class ReadingsStation extends LitElement {
  static override styles = [
    sharedStyles,
    noticeStyles,
    css`
      .rack {
        display: flex;
        flex-wrap: wrap;
        gap: 0.5rem;
        margin: 0 0 1rem;
        padding: 0;
        list-style: none;
      }
      .rack button {
        text-align: start;
        line-height: 1.25;
        max-width: 16rem;
      }
      .rack button[aria-pressed='true'] {
        background: var(--selected);
        border: 2px solid var(--text);
        font-weight: 600;
        padding: calc(0.4rem - 1px) calc(0.9rem - 1px);
      }
      .rack button[aria-pressed='true']::before {
        content: '▸ ';
      }
      .rack small {
        display: block;
        font-size: 0.8125rem;
        font-weight: 400;
        color: var(--quiet);
      }
      .actions {
        display: flex;
        flex-wrap: wrap;
        gap: 0.5rem;
        margin-top: 1rem;
      }
      .name {
        width: 14rem;
        font-weight: 600;
      }
      wb-number {
        --field-width: 5.5rem;
      }
      textarea {
        width: 100%;
        min-height: 5rem;
      }
      select {
        max-width: 100%;
        width: 16rem;
      }
    `,
  ];

  private readonly app = new AppController(this, ({ document, session }, { derive }) => {
    const strip = derive.stripOf(document, session.stripId);
    return {
      strips: document.strips,
      films: document.films,
      tablets: document.tablets,
      strip,
      unit: session.unit,
      asTyped: document.asTyped,
      fit: strip === null ? null : derive.fit(document, strip, session.family),
    };
  });

  protected override render(): TemplateResult | typeof nothing {
    const view = this.app.value;
    if (view === undefined) return nothing;
    const { strip, strips } = view;
    return html`<section class="station" aria-labelledby="title">
      <div class="head">
        <h2 id="title">${text.readings.title}</h2>
        <p class="says">${strip === null ? text.readings.none : this.says(strip)}</p>
      </div>
      <ul class="rack" aria-label=${text.readings.rack}>
        ${repeat(
          strips,
          ({ id }) => id,
          (each) => this.rackTemplate(each, each === strip),
        )}
        <li>
          <button
            @click=${() => {
              this.add('film');
            }}
          >
            ${text.readings.newStrip}
          </button>
        </li>
        ${
          strip?.material === 'film' && strip.treatment === null
            ? html`<li>
                <button
                  @click=${() => {
                    this.addTreated(strip);
                  }}
                >
                  ${text.readings.newTreated}
                </button>
              </li>`
            : nothing
        }
        <li>
          <button
            @click=${() => {
              this.add('paper');
            }}
          >
            ${text.readings.newPaperStrip}
          </button>
        </li>
      </ul>
      ${strip === null ? nothing : this.stripTemplate(strip)}
    </section>`;
  }

  private says(strip: Strip): string {
    const read = strip.rows.filter((row) => row.densities.some((d) => d !== null)).length;
    return text.readings.says(read, strip.rows.length, strip.unexposedDensities.length);
  }

  private rackTemplate(strip: Strip, chosen: boolean): TemplateResult {
    return html`<li>
      <button
        aria-pressed=${chosen ? 'true' : 'false'}
        @click=${() => {
          this.app.app.session.set({ stripId: strip.id });
        }}
      >
        ${strip.name}<small>${text.readings.facts(strip)}</small>
      </button>
    </li>`;
  }

  private stripTemplate(strip: Strip): TemplateResult {
    const view = this.app.value;
    const kept = Object.keys(view?.asTyped ?? {}).filter((key) =>
      key.startsWith(`strip/${strip.id}/`),
    ).length;
    const warnings = view?.fit?.warnings ?? [];
    const reversed = warnings.some(
      ({ code, details }) =>
        code === 'density-falls-with-exposure' && details['kind'] === 'reversed',
    );
    const without = view?.fit?.readings.stepsWithoutExposure ?? [];
    return html`
      <div class="fields">
        <div>
          <label for="name">${text.readings.name}</label>
          <input
            id="name"
            class="name"
            .value=${live(strip.name)}
            @input=${(event: Event) => {
              this.change(strip, { name: valueOf(event) }, 'name');
            }}
          />
        </div>
        <div>
          <label for="unit">${text.readings.unit}</label>
          <select
            id="unit"
            @change=${(event: Event) => {
              this.app.app.session.set({ unit: valueOf(event) as ReadingUnit });
            }}
          >
            ${UNITS.map((unit) => html`<option value=${unit} ?selected=${unit === view?.unit}>${text.units[unit]}</option>`)}
          </select>
        </div>
      </div>
      <details>
        <summary>${text.readings.details(strip, this.tabletName(strip.tabletId))}</summary>
        ${this.detailsTemplate(strip)}
      </details>
      <p class="quiet small">${text.readings.pasteHint}</p>
      <div class="scroll"><wb-worksheet></wb-worksheet></div>
      <div class="actions">
        <button
          @click=${() => {
            this.addRow(strip);
          }}
        >
          ${text.readings.addStep}
        </button>
        <button
          @click=${() => {
            this.addReplicate(strip);
          }}
        >
          ${text.readings.addReplicate}
        </button>
        ${
          reversed
            ? html`<button
                @click=${() => {
                  this.app.app.store.dispatch({ type: 'rows/reverse-readings', stripId: strip.id });
                }}
              >
                ${text.readings.reverse}
              </button>`
            : nothing
        }
        <button
          @click=${() => {
            this.removeStrip(strip);
          }}
        >
          ${text.readings.remove}
        </button>
      </div>
      ${kept > 0 ? html`<p class="wrong" role="status">${text.readings.kept(kept)}</p>` : nothing}
      ${without.length > 0 ? html`<p class="wrong">${text.readings.withoutExposure(without)}</p>` : nothing}
      ${warningList(warnings)}
    `;
  }

  private detailsTemplate(strip: Strip): TemplateResult {
    const view = this.app.value;
    const { exposure, development, treatment } = strip;
    return html`<div class="fields">
        <div>
          <label for="tablet">${text.readings.tablet}</label>
          <select
            id="tablet"
            @change=${(event: Event) => {
              this.chooseTablet(strip, valueOf(event));
            }}
          >
            ${nominalTablets.map(({ id, name }) => html`<option value=${id} ?selected=${id === strip.tabletId}>${name}</option>`)}
            ${view?.tablets.map(({ id, name }) => html`<option value=${id} ?selected=${id === strip.tabletId}>${name}</option>`)}
            <option value="" ?selected=${strip.tabletId === null}>${text.readings.noTablet}</option>
          </select>
        </div>
        <div>
          <label for="exposure">${text.readings.exposure}</label>
          <select
            id="exposure"
            @change=${(event: Event) => {
              const kind = valueOf(event);
              const next =
                kind === 'absolute'
                  ? ({ kind, sourceLogExposure: 0 } as const)
                  : ({ kind: 'relative' } as const);
              this.change(strip, { exposure: next });
            }}
          >
            <option value="relative" ?selected=${exposure.kind === 'relative'}>
              ${text.readings.relative}
            </option>
            <option value="absolute" ?selected=${exposure.kind === 'absolute'}>
              ${text.readings.absolute}
            </option>
          </select>
        </div>
        ${
          exposure.kind === 'absolute'
            ? html`<wb-number
                label=${text.readings.source}
                unit=${text.readings.sourceUnit}
                key=${`strip/${strip.id}/source`}
                .value=${exposure.sourceLogExposure}
                optional
                .min=${-12}
                .max=${12}
                .step=${0.01}
                .decimals=${4}
                @wb-value=${(event: CustomEvent<number | null>) => {
                  this.change(
                    strip,
                    { exposure: { kind: 'absolute', sourceLogExposure: event.detail } },
                    'source',
                  );
                }}
              ></wb-number>`
            : nothing
        }
        ${strip.material === 'film' ? this.developmentTemplate(strip, development) : nothing}
        ${treatment === null ? nothing : this.treatmentTemplate(strip, treatment)}
      </div>
      <details>
        <summary>${text.readings.ownTablet}</summary>
        <label for="own">${text.readings.ownTabletHint}</label>
        <textarea id="own" rows="4"></textarea>
        <p>
          <button
            @click=${() => {
              this.addTablet(strip);
            }}
          >
            ${text.readings.useTablet}
          </button>
        </p>
        <p class="wrong" id="own-fault" hidden></p>
      </details>`;
  }

  private developmentTemplate(strip: Strip, development: Strip['development']): TemplateResult {
    const set = (minutes: number | null, celsius: number) => {
      this.change(strip, { development: minutes === null ? null : { minutes, celsius } }, 'dev');
    };
    return html`<wb-number
        label=${text.readings.developed}
        unit="min"
        key=${`strip/${strip.id}/minutes`}
        optional
        .value=${development?.minutes ?? null}
        .min=${0.01}
        .max=${10000}
        .step=${0.5}
        @wb-value=${(event: CustomEvent<number | null>) => {
          set(event.detail, development?.celsius ?? 20);
        }}
      ></wb-number>
      ${
        development === null
          ? nothing
          : html`<wb-number
              label=${text.readings.developedAt}
              unit="°C"
              key=${`strip/${strip.id}/celsius`}
              .value=${development.celsius}
              .min=${-20}
              .max=${100}
              .step=${0.5}
              @wb-value=${(event: CustomEvent<number | null>) => {
                set(development.minutes, event.detail ?? 20);
              }}
            ></wb-number>`
      }`;
  }

  private treatmentTemplate(
    strip: Strip,
    treatment: NonNullable<Strip['treatment']>,
  ): TemplateResult {
    const set = (changes: Partial<typeof treatment>) => {
      this.change(strip, { treatment: { ...treatment, ...changes } }, 'bath');
    };
    const key = `strip/${strip.id}/bath`;
    const partners = (this.app.value?.strips ?? []).filter(
      ({ id, material, treatment: own }) => id !== strip.id && material === 'film' && own === null,
    );
    return html` <wb-number
        label=${text.treatment.dilution}
        lead="1+"
        key=${`${key}-water`}
        .value=${treatment.partsWater}
        .min=${0}
        .max=${1000}
        .step=${1}
        @wb-value=${(event: CustomEvent<number>) => {
          set({ partsWater: event.detail });
        }}
      ></wb-number>
      <wb-number
        label=${text.treatment.minutes}
        unit="min"
        key=${`${key}-minutes`}
        .value=${treatment.minutes}
        .min=${0}
        .max=${10000}
        .step=${0.5}
        @wb-value=${(event: CustomEvent<number>) => {
          set({ minutes: event.detail });
        }}
      ></wb-number>
      <wb-number
        label=${text.treatment.temperature}
        unit="°C"
        key=${`${key}-celsius`}
        .value=${treatment.celsius}
        .min=${0}
        .max=${60}
        .step=${0.5}
        @wb-value=${(event: CustomEvent<number>) => {
          set({ celsius: event.detail });
        }}
      ></wb-number>
      <div>
        <label for="partner">${text.readings.partner}</label>
        <select
          id="partner"
          @change=${(event: Event) => {
            set({ untreatedStripId: valueOf(event) || null });
          }}
        >
          <option value="" ?selected=${treatment.untreatedStripId === null}>
            ${text.readings.noPartner}
          </option>
          ${partners.map(({ id, name }) => html`<option value=${id} ?selected=${id === treatment.untreatedStripId}>${name}</option>`)}
        </select>
      </div>`;
  }

  private tabletName(id: string | null): string {
    const own = this.app.value?.tablets.find((tablet) => tablet.id === id);
    return (
      own?.name ?? nominalTablets.find((tablet) => tablet.id === id)?.name ?? text.readings.noTablet
    );
  }

  private change(strip: Strip, changes: Partial<Strip>, gesture?: string): void {
    const command: WorkCommand = { type: 'strip/change', id: strip.id, changes };
    this.app.app.store.dispatch(
      gesture === undefined ? command : { ...command, mergeKey: `${gesture} ${strip.id}` },
    );
  }

  /** A strip without readings takes the new tablet's steps; one with readings keeps its rows. */
  private chooseTablet(strip: Strip, tabletId: string): void {
    const isRead = strip.rows.some((row) => row.densities.some((density) => density !== null));
    const own = this.app.value?.tablets.find(({ id }) => id === tabletId)?.densities;
    const densities = own ?? builtInTablet(tabletId);
    const rows =
      isRead || densities === null
        ? strip.rows
        : densities.map((_, i) => ({ step: i + 1, logExposure: null, densities: [null] }));
    this.change(strip, { tabletId: tabletId === '' ? null : tabletId, rows });
  }

  private addTablet(strip: Strip): void {
    const field = this.renderRoot.querySelector<HTMLTextAreaElement>('#own');
    const fault = this.renderRoot.querySelector<HTMLElement>('#own-fault');
    if (field === null || fault === null) return;
    const cells = field.value.split(/[\s;]+/).filter((cell) => cell !== '');
    const parsed = cells.map((cell) => parseNumber(cell));
    const wrong = parsed.findIndex(
      (cell) => cell.status !== 'read' || cell.value < -0.5 || cell.value > 6,
    );
    const message =
      wrong >= 0
        ? text.wrong.tabletCell(cells[wrong] ?? '', wrong + 1)
        : parsed.length < 4
          ? text.wrong.tabletShort
          : null;
    fault.hidden = message === null;
    fault.textContent = message;
    if (message !== null) return;
    const densities = parsed.flatMap((cell) => (cell.status === 'read' ? [cell.value] : []));
    const id = newId();
    const name = text.names.ownTablet(densities.length, (this.app.value?.tablets.length ?? 0) + 1);
    const isRead = strip.rows.some((row) => row.densities.some((density) => density !== null));
    const rows = isRead
      ? strip.rows
      : densities.map((_, i) => ({ step: i + 1, logExposure: null, densities: [null] }));
    this.app.app.store.dispatch({
      type: 'several',
      commands: [
        { type: 'tablet/add', entry: { id, name, densities, kind: 'calibrated', note: '' } },
        { type: 'strip/change', id: strip.id, changes: { tabletId: id, rows } },
      ],
    });
    field.value = '';
    this.app.app.session.set({ announcement: text.readings.tabletAdded(name) });
  }

  private add(material: Strip['material']): void {
    const { store, session } = this.app.app;
    const entry = newStrip(store.state.document, this.app.value?.strip ?? null, material);
    store.dispatch({ type: 'strip/add', entry });
    session.set({ stripId: entry.id, announcement: text.readings.added(entry.name) });
    void this.focusFirstCell();
  }

  private addTreated(strip: Strip): void {
    const { store, session } = this.app.app;
    const entry = newTreatedStrip(store.state.document, strip);
    store.dispatch({ type: 'strip/add', entry });
    session.set({ stripId: entry.id, announcement: text.readings.added(entry.name) });
    void this.focusFirstCell();
  }

  private async focusFirstCell(): Promise<void> {
    await this.updateComplete;
    const sheet = this.renderRoot.querySelector('wb-worksheet');
    await sheet?.updateComplete;
    sheet?.renderRoot
      .querySelector<HTMLInputElement>('input[data-row="0"][data-column="1"]')
      ?.focus();
  }

  private addRow(strip: Strip): void {
    const step = (strip.rows.at(-1)?.step ?? 0) + 1;
    this.app.app.store.dispatch({
      type: 'rows/insert',
      stripId: strip.id,
      row: strip.rows.length,
      rows: [{ step, logExposure: null, densities: [null] }],
    });
  }

  private addReplicate(strip: Strip): void {
    const replicates = Math.max(2, ...strip.rows.map((row) => row.densities.length)) + 1;
    const row = strip.rows[0];
    if (row === undefined) return;
    const densities = Array.from({ length: replicates }, (_, i) => row.densities[i] ?? null);
    this.app.app.store.dispatch({
      type: 'rows/set-replicates',
      stripId: strip.id,
      row: 0,
      densities,
    });
  }

  private removeStrip(strip: Strip): void {
    const { store, session } = this.app.app;
    const { strips } = store.state.document;
    const index = strips.indexOf(strip);
    const neighbour = strips[index + 1] ?? strips[index - 1] ?? null;
    store.dispatch({ type: 'strip/remove', id: strip.id });
    session.set({
      stripId: neighbour?.id ?? null,
      announcement: text.readings.removed(strip.name),
    });
  }
}

/** What the user chose or typed. */
function valueOf(event: Event): string {
  return (event.target as HTMLInputElement | HTMLSelectElement).value;
}

declare global {
  interface HTMLElementTagNameMap {
    'wb-readings': ReadingsStation;
  }
}
