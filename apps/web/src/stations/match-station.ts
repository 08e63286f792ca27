/**
 * Fourth station: the negative's shadow and highlight, the paper, the enlarger's light; from them
 * the printing range, the ISO range and the grade that the negative calls for.
 */
import { enlargerLights, gradeTables } from '@wedgebook/data';
import type { Negative, Paper, Spot } from '@wedgebook/notebook';
import { formatNumber, formatSigned } from '@wedgebook/charts';
import { css, html, LitElement, nothing, type TemplateResult } from 'lit';
import { customElement } from 'lit/decorators.js';
import { live } from 'lit/directives/live.js';
import { repeat } from 'lit/directives/repeat.js';
import { estimate, noticeStyles, sourceMark, warningList } from '../parts/notices.ts';
import { sharedStyles } from '../parts/styles.ts';
import { AppController } from '../state/app-controller.ts';
import type { BathView } from '../state/derive-bath.ts';
import { text } from '../text.ts';
import { newId, newNegative, newPaper } from '../worksheet/new-entries.ts';
import '../parts/number-field.ts';

const ROLES: readonly Spot['role'][] = ['shadow', 'highlight', 'other'];

@customElement('wb-match')
export class MatchStation extends LitElement {
  static override styles = [
    sharedStyles,
    noticeStyles,
    css`
      .result {
        display: grid;
        grid-template-columns: repeat(auto-fit, minmax(9rem, 1fr));
        gap: 0.75rem 1.5rem;
        margin: 1.25rem 0 0;
      }
      .result dt {
        color: var(--quiet);
        font-size: 0.875rem;
      }
      .result dd {
        margin: 0;
        font-size: 1.5rem;
        font-weight: 600;
        line-height: 1.25;
      }
      .result small {
        display: block;
        font-size: 0.875rem;
        font-weight: 400;
        color: var(--quiet);
      }
      .spots input.name {
        width: 10rem;
      }
      .spots td {
        padding-block: 0.2rem;
        border-bottom: 0;
      }
      select {
        max-width: 100%;
      }
      .wide select {
        width: 18rem;
      }
      .says-paper {
        font-size: 1.0625rem;
        margin-top: 0.75rem;
      }
    `,
  ];

  private readonly app = new AppController(this, ({ document, session }, { bath, derive }) => ({
    bath: bath.view(document, session.family, session.targetGrade),
    negatives: document.negatives,
    papers: document.papers,
    strips: document.strips,
    plan: document.plan,
    targetGrade: session.targetGrade,
    strip: derive.stripOf(document, session.stripId),
  }));

  protected override render(): TemplateResult | typeof nothing {
    const view = this.app.value;
    if (view === undefined) return nothing;
    const { bath, negatives } = view;
    const { negative } = bath;
    return html`<section class="station" aria-labelledby="title">
      <div class="head">
        <h2 id="title">${text.match.title}</h2>
        <p class="says">${text.match.says(bath)}</p>
      </div>
      <div class="fields wide">
        <div>
          <label for="negative">${text.match.negative}</label>
          <select
            id="negative"
            @change=${(event: Event) => {
              this.chooseNegative(valueOf(event));
            }}
          >
            <option value="" ?selected=${negative === null}>${text.match.chooseNegative}</option>
            ${negatives.map(({ id, name }) => html`<option value=${id} ?selected=${id === negative?.id}>${name}</option>`)}
          </select>
        </div>
        <button @click=${this.addNegative}>${text.match.newNegative}</button>
      </div>
      ${negative === null ? nothing : this.negativeTemplate(negative, bath)}
      <h3>${text.match.paperAndLight}</h3>
      ${this.paperTemplate(bath)}
      ${bath.missing === null ? nothing : html`<p class="wrong">${bath.missing}</p>`}
      ${this.resultTemplate(bath)}
    </section>`;
  }

  private negativeTemplate(negative: Negative, bath: BathView): TemplateResult {
    const change = (changes: Partial<Negative>, gesture?: string) => {
      this.app.app.store.dispatch({
        type: 'negative/change',
        id: negative.id,
        changes,
        ...(gesture === undefined ? {} : { mergeKey: `${gesture} ${negative.id}` }),
      });
    };
    const hasBoth = (['shadow', 'highlight'] as const).every((role) =>
      negative.spots.some((spot) => spot.role === role),
    );
    return html` <div class="fields">
        <div>
          <label for="negative-name">${text.readings.name}</label>
          <input
            id="negative-name"
            .value=${live(negative.name)}
            @input=${(event: Event) => {
              change({ name: valueOf(event) }, 'name');
            }}
          />
        </div>
        <div>
          <label for="negative-strip">${text.match.strip}</label>
          <select
            id="negative-strip"
            @change=${(event: Event) => {
              change({ stripId: valueOf(event) || null });
            }}
          >
            <option value="" ?selected=${negative.stripId === null}>${text.match.noStrip}</option>
            ${(this.app.value?.strips ?? [])
              .filter(({ material }) => material === 'film')
              .map(
                ({ id, name }) =>
                  html`<option value=${id} ?selected=${id === negative.stripId}>${name}</option>`,
              )}
          </select>
        </div>
        <wb-number
          label=${text.match.baseFog}
          unit=${text.match.baseFogUnit(bath.ends)}
          optional
          key=${`negative/${negative.id}/fog`}
          .value=${negative.baseFog}
          .min=${-0.5}
          .max=${6}
          .step=${0.01}
          .decimals=${3}
          @wb-value=${(event: CustomEvent<number | null>) => {
            change({ baseFog: event.detail }, 'fog');
          }}
        ></wb-number>
      </div>
      <div class="scroll">
        <table class="spots">
          <caption class="visually-hidden">
            ${text.match.spots}
          </caption>
          <thead>
            <tr>
              <th scope="col">${text.match.spot}</th>
              <th scope="col">${text.match.role}</th>
              <th scope="col">${text.match.density}</th>
              <th scope="col"><span class="visually-hidden">${text.match.removeHead}</span></th>
            </tr>
          </thead>
          <tbody>
            ${repeat(
              negative.spots,
              ({ id }) => id,
              (spot) => this.spotTemplate(negative, spot),
            )}
          </tbody>
        </table>
      </div>
      <div class="fields">
        ${(['shadow', 'highlight'] as const).map(
          (role) =>
            html`<wb-number
              once
              optional
              label=${text.match.add[role]}
              unit=${text.match.densityUnit}
              key=${`negative/${negative.id}/new-${role}`}
              .value=${null}
              .min=${-0.5}
              .max=${6}
              .step=${0.01}
              .decimals=${3}
              @wb-value=${(event: CustomEvent<number | null>) => {
                this.addSpot(negative, role, event.detail);
              }}
            ></wb-number>`,
        )}
        ${
          hasBoth
            ? nothing
            : html`<wb-number
                label=${text.match.rangeOnly}
                unit=${text.match.densityUnit}
                optional
                key=${`negative/${negative.id}/range`}
                .value=${negative.densityRange ?? null}
                .min=${0.01}
                .max=${6}
                .step=${0.01}
                .decimals=${3}
                @wb-value=${(event: CustomEvent<number | null>) => {
                  change({ densityRange: event.detail }, 'range');
                }}
              ></wb-number>`
        }
      </div>`;
  }

  private spotTemplate(negative: Negative, spot: Spot): TemplateResult {
    const change = (changes: Partial<Spot>, gesture: string) => {
      this.app.app.store.dispatch({
        type: 'spot/change',
        negativeId: negative.id,
        id: spot.id,
        changes,
        mergeKey: `${gesture} ${spot.id}`,
      });
    };
    return html`<tr>
      <td>
        <input
          class="name"
          aria-label=${text.match.spotName}
          .value=${live(spot.name)}
          @input=${(event: Event) => {
            change({ name: valueOf(event) }, 'name');
          }}
        />
      </td>
      <td>
        <select
          aria-label=${text.match.roleOf(spot.name)}
          @change=${(event: Event) => {
            change({ role: valueOf(event) as Spot['role'] }, 'role');
          }}
        >
          ${ROLES.map((role) => html`<option value=${role} ?selected=${role === spot.role}>${text.match.roles[role]}</option>`)}
        </select>
      </td>
      <td>
        <wb-number
          class="bare"
          label=${text.match.densityOf(spot.name)}
          key=${`spot/${spot.id}`}
          .value=${spot.density}
          .min=${-0.5}
          .max=${6}
          .step=${0.01}
          .decimals=${3}
          @wb-value=${(event: CustomEvent<number>) => {
            change({ density: event.detail }, 'density');
          }}
        ></wb-number>
      </td>
      <td>
        <button
          aria-label=${text.match.removeSpot(spot.name)}
          @click=${() => {
            this.app.app.store.dispatch({
              type: 'spot/remove',
              negativeId: negative.id,
              id: spot.id,
            });
          }}
        >
          ${text.match.remove}
        </button>
      </td>
    </tr>`;
  }

  private paperTemplate(bath: BathView): TemplateResult {
    const view = this.app.value;
    const { paper, gradeTable } = bath;
    const plan = view?.plan;
    const chosen = view?.papers.find(({ id }) => id === plan?.paperId) ?? null;
    const set = (changes: Partial<NonNullable<typeof plan>>, gesture?: string) => {
      this.app.app.store.dispatch({
        type: 'plan/set',
        changes,
        ...(gesture === undefined ? {} : { mergeKey: gesture }),
      });
    };
    const light = enlargerLights.find(
      ({ callierFactor }) => callierFactor.value === plan?.callierFactor,
    );
    return html`<div class="fields wide">
        <div>
          <label for="paper">${text.match.paper}</label>
          <select
            id="paper"
            @change=${(event: Event) => {
              set({ paperId: valueOf(event) || null });
            }}
          >
            <option value="" ?selected=${chosen === null}>${text.match.gradedPaper}</option>
            ${view?.papers.map(({ id, name }) => html`<option value=${id} ?selected=${id === chosen?.id}>${name}</option>`)}
          </select>
        </div>
        ${
          chosen === null
            ? html`<div>
                <label for="grade">${text.match.gradeOnShelf}</label>
                <select
                  id="grade"
                  @change=${(event: Event) => {
                    this.app.app.session.set({ targetGrade: Number(valueOf(event)) });
                  }}
                >
                  ${gradeTable.bands.map(({ grade }) => html`<option value=${grade} ?selected=${grade === view?.targetGrade}>${text.match.gradeLabel(grade)}</option>`)}
                </select>
              </div>`
            : nothing
        }
        <button
          @click=${() => {
            this.addPaper({ kind: 'iso-range', isoRange: 105 });
          }}
        >
          ${text.match.newPaper}
        </button>
      </div>
      ${chosen === null ? nothing : this.ownPaperTemplate(chosen)}
      <div class="fields wide">
        <div>
          <label for="table">${text.match.table}</label>
          <select
            id="table"
            @change=${(event: Event) => {
              set({ gradeTableId: valueOf(event) });
            }}
          >
            ${gradeTables.map(({ id, name }) => html`<option value=${id} ?selected=${id === gradeTable.id}>${name}</option>`)}
          </select>
        </div>
        <div>
          <label for="light">${text.match.light}</label>
          <select
            id="light"
            @change=${(event: Event) => {
              const found = enlargerLights.find(({ id }) => id === valueOf(event));
              if (found !== undefined) set({ callierFactor: found.callierFactor.value });
            }}
          >
            ${enlargerLights.map((each) => html`<option value=${each.id} ?selected=${each === light}>${each.name}</option>`)}
            <option value="own" ?selected=${light === undefined}>${text.match.ownLight}</option>
          </select>
        </div>
        <wb-number
          label=${text.match.callier}
          unit=${text.match.callierUnit}
          key="plan/callier"
          .value=${plan?.callierFactor ?? 1}
          .min=${1}
          .max=${2}
          .step=${0.01}
          .decimals=${3}
          @wb-value=${(event: CustomEvent<number>) => {
            set({ callierFactor: event.detail }, 'callier');
          }}
        ></wb-number>
      </div>
      <p class="small">${sourceMark(gradeTable.provenance)}</p>
      ${light === undefined ? nothing : html`<p class="small">${sourceMark(light.provenance)}</p>`}
      ${paper === null ? html`<p class="wrong">${text.match.noPaperScale}</p>` : html`<p class="says-paper">${text.match.paperSays(paper)}</p>`}`;
  }

  private ownPaperTemplate(paper: Paper): TemplateResult {
    const { source } = paper;
    const change = (changes: Partial<Paper>, gesture?: string) => {
      this.app.app.store.dispatch({
        type: 'paper/change',
        id: paper.id,
        changes,
        ...(gesture === undefined ? {} : { mergeKey: `${gesture} ${paper.id}` }),
      });
    };
    const strips = (this.app.value?.strips ?? []).filter(({ material }) => material === 'paper');
    const table = this.app.value?.bath.gradeTable;
    return html`<div class="fields">
      <div>
        <label for="paper-name">${text.readings.name}</label>
        <input
          id="paper-name"
          .value=${live(paper.name)}
          @input=${(event: Event) => {
            change({ name: valueOf(event) }, 'name');
          }}
        />
      </div>
      <div>
        <label for="paper-source">${text.match.known}</label>
        <select
          id="paper-source"
          @change=${(event: Event) => {
            const kind = valueOf(event) as Paper['source']['kind'];
            const next: Paper['source'] =
              kind === 'strip'
                ? { kind, stripId: strips[0]?.id ?? null }
                : kind === 'iso-range'
                  ? { kind, isoRange: 105 }
                  : { kind, tableId: table?.id ?? '', band: 2 };
            change({ source: next });
          }}
        >
          ${(['iso-range', 'strip', 'grade-table'] as const).map((kind) => html`<option value=${kind} ?selected=${kind === source.kind}>${text.match.sources[kind]}</option>`)}
        </select>
      </div>
      ${
        source.kind === 'iso-range'
          ? html`<wb-number
              label=${text.match.isoRange}
              lead="R"
              key=${`paper/${paper.id}`}
              .value=${source.isoRange}
              .min=${20}
              .max=${300}
              .step=${5}
              .decimals=${1}
              @wb-value=${(event: CustomEvent<number>) => {
                change({ source: { kind: 'iso-range', isoRange: event.detail } }, 'range');
              }}
            ></wb-number>`
          : source.kind === 'strip'
            ? html`<div>
                <label for="paper-strip">${text.match.paperStrip}</label>
                <select
                  id="paper-strip"
                  @change=${(event: Event) => {
                    change({ source: { kind: 'strip', stripId: valueOf(event) || null } });
                  }}
                >
                  <option value="" ?selected=${source.stripId === null}>
                    ${text.match.noStrip}
                  </option>
                  ${strips.map(({ id, name }) => html`<option value=${id} ?selected=${id === source.stripId}>${name}</option>`)}
                </select>
              </div>`
            : html`<div>
                <label for="paper-band">${text.match.grade}</label>
                <select
                  id="paper-band"
                  @change=${(event: Event) => {
                    change({ source: { ...source, band: Number(valueOf(event)) } });
                  }}
                >
                  ${(gradeTables.find(({ id }) => id === source.tableId) ?? table)?.bands.map(({ grade }) => html`<option value=${grade} ?selected=${grade === source.band}>${text.match.gradeLabel(grade)}</option>`)}
                </select>
              </div>`
      }
    </div>`;
  }

  private resultTemplate({ match, paper, ends }: BathView): TemplateResult | typeof nothing {
    if (match === null || ends === null) return nothing;
    const { densityRange, printingRange, isoRange, paperGrade, paper: fit } = match;
    return html`<dl class="result">
        <div>
          <dt>${text.match.densityRange}</dt>
          <dd>${estimate(densityRange, 2)}<small>${text.match.densityRangeOf(ends)}</small></dd>
        </div>
        <div>
          <dt>${text.match.printingRange}</dt>
          <dd>
            ${estimate(printingRange, 2)}<small
              >${text.match.printingRangeOf(this.app.value?.plan.callierFactor ?? 1)}</small
            >
          </dd>
        </div>
        <div>
          <dt>${text.match.isoRangeWanted}</dt>
          <dd>
            ${isoRange === null ? text.none : `R ${isoRange.rounded}`}<small
              >${isoRange === null ? '' : text.match.exactly(formatNumber(isoRange.exact.value, 1))}</small
            >
          </dd>
        </div>
        <div>
          <dt>${text.match.gradeWanted}</dt>
          <dd>${text.gradeShort(paperGrade)}<small>${text.gradeDetail(paperGrade)}</small></dd>
        </div>
        ${
          fit === null || paper === null
            ? nothing
            : html`<div>
                <dt>${text.match.onPaper(paper.label)}</dt>
                <dd>
                  ${text.match.verdicts[fit.verdict]}<small
                    >${text.match.differenceOf(formatSigned(fit.difference.value, 2), formatSigned(fit.differenceStops, 1))}</small
                  >
                </dd>
              </div>`
        }
      </dl>
      ${warningList([...match.warnings, ...(paper?.warnings ?? [])])}`;
  }

  private chooseNegative(id: string): void {
    const { store, session } = this.app.app;
    const negative = store.state.document.negatives.find((each) => each.id === id);
    store.dispatch({ type: 'plan/set', changes: { negativeId: negative?.id ?? null } });
    // The sheet shows the curve that the negative lies on.
    if (negative?.stripId != null) session.set({ stripId: negative.stripId });
  }

  private addNegative(): void {
    const { store } = this.app.app;
    const strip = this.app.value?.strip ?? null;
    const entry = newNegative(store.state.document, strip?.material === 'film' ? strip : null);
    store.dispatch({
      type: 'several',
      commands: [
        { type: 'negative/add', entry },
        { type: 'plan/set', changes: { negativeId: entry.id } },
      ],
    });
  }

  private addSpot(negative: Negative, role: 'shadow' | 'highlight', density: number | null): void {
    if (density === null) return;
    const spot: Spot = { id: newId(), name: text.match.roles[role], density, role };
    this.app.app.store.dispatch({ type: 'spot/add', negativeId: negative.id, spot });
  }

  private addPaper(source: Paper['source']): void {
    const { store } = this.app.app;
    const entry = newPaper(store.state.document, source);
    store.dispatch({
      type: 'several',
      commands: [
        { type: 'paper/add', entry },
        { type: 'plan/set', changes: { paperId: entry.id } },
      ],
    });
  }
}

function valueOf(event: Event): string {
  return (event.target as HTMLInputElement | HTMLSelectElement).value;
}

declare global {
  interface HTMLElementTagNameMap {
    'wb-match': MatchStation;
  }
}
