/** The paper, the table of grades and the enlarger's light, each with how it is known. */
import { enlargerLights, gradeTables } from '@wedgebook/data';
import type { Paper, Plan } from '@wedgebook/notebook';
import { css, html, LitElement, nothing, type TemplateResult } from 'lit';
import { customElement } from 'lit/decorators.js';
import { choice, textEntry } from '../parts/fields.ts';
import { noticeStyles, sourceMark } from '../parts/notices.ts';
import { focusIn } from '../parts/focus-after.ts';
import { sharedStyles } from '../parts/styles.ts';
import { AppController } from '../state/app-controller.ts';
import { factorErrorOf, type BathView } from '../state/derive-bath.ts';
import { text } from '../text.ts';
import { newPaper } from '../worksheet/new-entries.ts';
import '../parts/number-field.ts';
import './callier-measured.ts';
import './paper-settings.ts';

const SOURCES = ['iso-range', 'strip', 'strips', 'grade-table'] as const;
/** R of a paper in the middle of the grades, until its own is typed. */
const USUAL_ISO_RANGE = 105;

@customElement('wb-paper')
export class PaperCard extends LitElement {
  static override styles = [
    sharedStyles,
    noticeStyles,
    css`
      .fields {
        margin-bottom: 0.75rem;
      }
      .field {
        flex: 1 1 14rem;
        max-width: 22rem;
      }
      .field select,
      .field input {
        width: 100%;
      }
      .scale {
        font-size: 1.0625rem;
      }
    `,
  ];

  private readonly app = new AppController(this, ({ document }, { bath }) => ({
    bath: bath.view(document, document.plan.curveFamily, document.plan.targetGrade),
    papers: document.papers,
    strips: document.strips,
    plan: document.plan,
    targetGrade: document.plan.targetGrade,
  }));

  protected override render(): TemplateResult | typeof nothing {
    const view = this.app.value;
    if (view === undefined) return nothing;
    const { bath, papers, plan } = view;
    const chosen = papers.find(({ id }) => id === plan.paperId) ?? null;
    return html`<div class="fields">
        ${choice({
          id: 'paper',
          label: text.match.paper,
          selected: chosen?.id ?? '',
          options: [
            ['', text.match.gradedPaper],
            ...papers.map(({ id, name }): [string, string] => [id, name]),
          ],
          onChoose: (id) => {
            this.set({ paperId: id === '' ? null : id });
          },
        })}
        ${chosen === null ? this.gradeTemplate(bath, view.targetGrade) : nothing}
        <button @click=${this.addPaper}>${text.match.newPaper}</button>
      </div>
      ${chosen === null ? nothing : this.ownPaperTemplate(chosen, bath)}
      ${
        bath.paper === null
          ? html`<p class="wrong">${text.match.noPaperScale}</p>`
          : html`<p class="scale">${text.match.paperSays(bath.paper)}</p>`
      }
      ${this.lightTemplate(bath, plan)}`;
  }

  private gradeTemplate({ gradeTable }: BathView, targetGrade: number): TemplateResult {
    return choice({
      id: 'grade',
      label: text.match.gradeOnShelf,
      selected: String(targetGrade),
      options: gradeTable.bands.map(({ grade }) => [String(grade), text.match.gradeLabel(grade)]),
      onChoose: (grade) => {
        this.set({ targetGrade: Number(grade) });
      },
    });
  }

  private ownPaperTemplate(paper: Paper, bath: BathView): TemplateResult {
    const { source } = paper;
    return html`<div class="fields">
      ${textEntry({
        id: 'name',
        label: text.readings.name,
        value: paper.name,
        onType: (name) => {
          this.change(paper, { name }, 'name');
        },
      })}
      ${choice({
        id: 'source',
        label: text.match.known,
        selected: source.kind,
        options: SOURCES.map((kind) => [kind, text.match.sources[kind]]),
        onChoose: (kind) => {
          this.change(paper, { source: this.sourceOf(kind, bath) });
        },
      })}
      ${this.sourceTemplate(paper, bath)}
      <button
        @click=${() => {
          this.app.app.store.dispatch({ type: 'paper/remove', id: paper.id });
          this.app.say(text.match.removed(paper.name));
          void focusIn(this, '#paper');
        }}
      >
        ${text.match.removePaper}
      </button>
    </div>`;
  }

  private sourceOf(kind: string, bath: BathView): Paper['source'] {
    if (kind === 'strip') {
      const strip = this.app.value?.strips.find(({ material }) => material === 'paper');
      return { kind, stripId: strip?.id ?? null };
    }
    if (kind === 'strips') return { kind, strips: [] };
    return kind === 'iso-range'
      ? { kind, isoRange: USUAL_ISO_RANGE }
      : { kind: 'grade-table', tableId: bath.gradeTable.id, band: 2 };
  }

  private sourceTemplate(paper: Paper, bath: BathView): TemplateResult | typeof nothing {
    const { source } = paper;
    switch (source.kind) {
      case 'iso-range':
        return html`<wb-number
          label=${text.match.isoRange}
          lead="R"
          key=${`paper/${paper.id}`}
          .value=${source.isoRange}
          .min=${20}
          .max=${300}
          .step=${5}
          .decimals=${1}
          @wb-value=${({ detail }: CustomEvent<number>) => {
            this.change(paper, { source: { kind: 'iso-range', isoRange: detail } }, 'range');
          }}
        ></wb-number>`;
      case 'strip': {
        const strips = (this.app.value?.strips ?? []).filter(
          ({ material }) => material === 'paper',
        );
        return choice({
          id: 'paper-strip',
          label: text.match.paperStrip,
          selected: source.stripId ?? '',
          options: [
            ['', text.match.noStrip],
            ...strips.map(({ id, name }): [string, string] => [id, name]),
          ],
          onChoose: (id) => {
            this.change(paper, { source: { kind: 'strip', stripId: id === '' ? null : id } });
          },
        });
      }
      case 'strips':
        return html`<wb-paper-settings
          .paper=${paper}
          .strips=${(this.app.value?.strips ?? []).filter(({ material }) => material === 'paper')}
        ></wb-paper-settings>`;
      case 'grade-table': {
        const table = gradeTables.find(({ id }) => id === source.tableId) ?? bath.gradeTable;
        return choice({
          id: 'band',
          label: text.match.grade,
          selected: String(source.band),
          options: table.bands.map(({ grade }) => [String(grade), text.match.gradeLabel(grade)]),
          onChoose: (band) => {
            this.change(paper, { source: { ...source, band: Number(band) } });
          },
        });
      }
    }
  }

  private lightTemplate({ gradeTable }: BathView, plan: Plan): TemplateResult {
    const light = enlargerLights.find(
      ({ callierFactor }) => callierFactor.value === plan.callierFactor,
    );
    return html`<div class="fields">
        ${choice({
          id: 'light',
          label: text.match.light,
          selected: light?.id ?? 'own',
          options: [
            ...enlargerLights.map(({ id, name }): [string, string] => [id, name]),
            ['own', text.match.ownLight],
          ],
          onChoose: (id) => {
            const found = enlargerLights.find((each) => each.id === id);
            if (found !== undefined) {
              this.set({ callierFactor: found.callierFactor.value, callierFactorError: null });
            }
          },
        })}
        <wb-number
          label=${text.match.callier}
          unit=${text.match.callierUnit}
          key="plan/callier"
          .value=${plan.callierFactor}
          .min=${1}
          .max=${2}
          .step=${0.01}
          .decimals=${3}
          @wb-value=${({ detail }: CustomEvent<number>) => {
            // Another factor has another error.
            this.set({ callierFactor: detail, callierFactorError: null }, 'callier');
          }}
        ></wb-number>
        ${
          light === undefined
            ? html`<wb-number
                label=${text.match.callierError}
                unit=${text.match.callierErrorUnit}
                key="plan/callier-error"
                optional
                .value=${factorErrorOf(plan)}
                .min=${0}
                .max=${0.5}
                .step=${0.005}
                .decimals=${4}
                @wb-value=${({ detail }: CustomEvent<number | null>) => {
                  this.set({ callierFactorError: detail }, 'callier-error');
                }}
              ></wb-number>`
            : nothing
        }
      </div>
      ${light === undefined ? nothing : html`<p>${sourceMark(light.provenance)}</p>`}
      <wb-callier></wb-callier>
      <div class="fields">
        ${choice({
          id: 'table',
          label: text.match.table,
          selected: gradeTable.id,
          options: gradeTables.map(({ id, name }) => [id, name]),
          onChoose: (id) => {
            this.set({ gradeTableId: id });
          },
        })}
      </div>
      <p>${sourceMark(gradeTable.provenance)}</p>`;
  }

  private set(changes: Partial<Plan>, mergeKey?: string): void {
    const merge = mergeKey === undefined ? {} : { mergeKey };
    this.app.app.store.dispatch({ type: 'plan/set', changes, ...merge });
  }

  private change(paper: Paper, changes: Partial<Paper>, gesture?: string): void {
    const mergeKey = gesture === undefined ? {} : { mergeKey: `${gesture} ${paper.id}` };
    this.app.app.store.dispatch({ type: 'paper/change', id: paper.id, changes, ...mergeKey });
  }

  private readonly addPaper = (): void => {
    const { store } = this.app.app;
    const source = { kind: 'iso-range', isoRange: USUAL_ISO_RANGE } as const;
    const entry = newPaper(store.state.document, source);
    store.dispatch({
      type: 'several',
      commands: [
        { type: 'paper/add', entry },
        { type: 'plan/set', changes: { paperId: entry.id } },
      ],
    });
    this.app.say(text.match.paperAdded(entry.name));
    void focusIn(this, '#name');
  };
}

declare global {
  interface HTMLElementTagNameMap {
    'wb-paper': PaperCard;
  }
}
