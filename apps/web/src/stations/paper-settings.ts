/** The strips of one paper at several settings, or of soft and hard light: which is which. */
import type { Paper, PaperStrip, Strip } from '@wedgebook/notebook';
import { css, html, LitElement, type TemplateResult } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import { choice, textEntry } from '../parts/fields.ts';
import { focusAfter } from '../parts/focus-after.ts';
import { sharedStyles } from '../parts/styles.ts';
import { AppController } from '../state/app-controller.ts';
import { text } from '../text.ts';
import '../parts/number-field.ts';

type StripsSource = Extract<Paper['source'], { kind: 'strips' }>;
const EMPTY: PaperStrip = { stripId: null, setting: '', softSeconds: null, hardSeconds: null };

@customElement('wb-paper-settings')
export class PaperSettings extends LitElement {
  static override styles = [
    sharedStyles,
    css`
      :host {
        flex-basis: 100%;
      }
      .row {
        display: flex;
        flex-wrap: wrap;
        gap: 0.25rem 0.75rem;
        align-items: end;
        border-bottom: 1px solid var(--rule);
        padding: 0.4rem 0 0.6rem;
      }
      .field {
        flex: 0 1 11rem;
        min-width: 0;
      }
      .field input,
      .field select {
        width: 100%;
      }
      wb-number {
        --field-width: 4.5rem;
      }
    `,
  ];

  @property({ attribute: false }) paper!: Paper;
  @property({ attribute: false }) strips: readonly Strip[] = [];

  private readonly app = new AppController(this, () => null);

  protected override render(): TemplateResult {
    const t = text.match.settings;
    const { source } = this.paper;
    const entries = source.kind === 'strips' ? source.strips : [];
    return html`<p class="quiet small">${t.says}</p>
      ${entries.map((entry, index) => this.rowTemplate(entry, index))}
      <p>
        <button
          id="add-setting"
          @click=${() => {
            this.set([...entries, { ...EMPTY, stripId: this.unusedStrip(entries) }]);
          }}
        >
          ${t.add}
        </button>
      </p>`;
  }

  private rowTemplate(entry: PaperStrip, index: number): TemplateResult {
    const t = text.match.settings;
    const { source, id } = this.paper;
    const entries = source.kind === 'strips' ? source.strips : [];
    const change = (changes: Partial<PaperStrip>, gesture = '') => {
      this.set(
        entries.map((each, i) => (i === index ? { ...each, ...changes } : each)),
        gesture === '' ? '' : `${index} ${gesture}`,
      );
    };
    const seconds = (name: 'softSeconds' | 'hardSeconds', label: string) =>
      html`<wb-number
        label=${label}
        unit="s"
        key=${`paper/${id}/strip-${index}/${name}`}
        optional
        .value=${entry[name]}
        .min=${0.01}
        .max=${3600}
        .step=${1}
        .decimals=${2}
        @wb-value=${({ detail }: CustomEvent<number | null>) => {
          change({ [name]: detail }, name);
        }}
      ></wb-number>`;
    return html`<div class="row" data-row=${index}>
      ${choice({
        id: `strip-${index}`,
        label: text.match.paperStrip,
        selected: entry.stripId ?? '',
        options: [
          ['', text.match.noStrip],
          ...this.strips.map(({ id: stripId, name }): [string, string] => [stripId, name]),
        ],
        onChoose: (stripId) => {
          change({ stripId: stripId === '' ? null : stripId });
        },
      })}
      ${textEntry({
        id: `setting-${index}`,
        label: t.setting,
        value: entry.setting,
        onType: (setting) => {
          change({ setting }, 'setting');
        },
      })}
      ${seconds('softSeconds', t.soft)} ${seconds('hardSeconds', t.hard)}
      <button
        class="remove"
        aria-label=${t.removeRow(index + 1)}
        @click=${({ currentTarget }: Event) => {
          this.set(entries.filter((_, i) => i !== index));
          void focusAfter(this, currentTarget, '.remove', '#add-setting');
        }}
      >
        ${text.match.remove}
      </button>
    </div>`;
  }

  private unusedStrip(entries: readonly PaperStrip[]): string | null {
    const used = new Set(entries.map(({ stripId }) => stripId));
    return this.strips.find(({ id }) => !used.has(id))?.id ?? null;
  }

  private set(strips: readonly PaperStrip[], gesture = ''): void {
    const source: StripsSource = { kind: 'strips', strips };
    this.app.app.store.dispatch({
      type: 'paper/change',
      id: this.paper.id,
      changes: { source },
      ...(gesture === '' ? {} : { mergeKey: `${this.paper.id} ${gesture}` }),
    });
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'wb-paper-settings': PaperSettings;
  }
}
