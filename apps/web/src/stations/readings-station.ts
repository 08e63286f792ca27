/**
 * First station: the strips and their readings. A rack of strips to choose from, the facts of the
 * chosen one, and its typing sheet.
 */
import type { Warning } from '@wedgebook/core';
import type { Strip } from '@wedgebook/notebook';
import { html, LitElement, nothing, type TemplateResult } from 'lit';
import { customElement, query, state } from 'lit/decorators.js';
import { repeat } from 'lit/directives/repeat.js';
import { choice, textEntry } from '../parts/fields.ts';
import { noticeStyles, warningList } from '../parts/notices.ts';
import { sharedStyles } from '../parts/styles.ts';
import type { ReadingUnit } from '../state/app.ts';
import { AppController, shallowEqual } from '../state/app-controller.ts';
import { text } from '../text.ts';
import { newStrip, newTreatedStrip } from '../worksheet/new-entries.ts';
import type { Entered } from '../worksheet/entered.ts';
import { replicateCount } from '../worksheet/cells.ts';
import { parseBlock } from '../worksheet/parse-block.ts';
import { isMeterScale } from '../worksheet/parse-cell.ts';
import { trialsOf, trialStripIds } from '../worksheet/new-trial.ts';
import { meterFields } from './meter-fields.ts';
import { readingsStyles } from './readings-station.styles.ts';
import './strip-details.ts';
import type { Worksheet } from '../worksheet/worksheet.ts';
import '../worksheet/worksheet.ts';

const UNITS: readonly ReadingUnit[] = [
  'density',
  'transmittance',
  'stops',
  'exposure-value',
  'lux',
  'seconds',
];

/** Control strips that stand among the others. */
const MOST_CONTROLS = 2;

@customElement('wb-readings')
export class ReadingsStation extends LitElement {
  static override styles = [sharedStyles, noticeStyles, readingsStyles];

  @state() private scanHere = false;
  @state() private instrumentHere = false;
  /** Name of the cell for an instrument's next reading. */
  @state() private nextPlace: string | null = null;

  @query('wb-worksheet') private readonly worksheet!: Worksheet | null;

  private readonly app = new AppController(this, ({ document, session }, { derive }) => {
    const strip = derive.stripOf(document, session.stripId);
    const fit = strip === null ? null : derive.fit(document, strip, document.plan.curveFamily);
    return {
      strips: document.strips,
      strip,
      unit: session.unit,
      meters: session.meters,
      asTyped: document.asTyped,
      fit,
    };
  });
  private readonly late = new AppController(
    this,
    ({ document, session }, { derive }): readonly Warning[] => {
      const strip = derive.stripOf(document, session.stripId);
      if (strip === null) return [];
      const fit = derive.fit(document, strip, document.plan.curveFamily);
      // What belongs to a cell of the sheet is said there.
      return derive.suspectCells(document, strip, fit).others;
    },
    shallowEqual,
    'after-frame',
  );

  protected override render(): TemplateResult | typeof nothing {
    const view = this.app.value;
    if (view === undefined) return nothing;
    const { strip, strips } = view;
    const trials = trialStripIds(strips);
    const racked = strips.filter((each) => each === strip || !trials.has(each.id));
    const controls = foldedControls(racked);
    const shown = racked.filter((each) => !controls.includes(each));
    const twin = strip?.material === 'film' && strip.treatment === null ? strip : null;
    return html`<section class="station" aria-labelledby="title">
      <div class="head">
        <h2 id="title">${text.readings.title}</h2>
        <p class="says">${strip === null ? text.readings.none : says(strip)}</p>
      </div>
      <div class="desk">
        <div class="rack-side">
          ${this.rackTemplate(text.readings.rack, shown, strip)}
          ${
            controls.length === 0
              ? nothing
              : html`<details .open=${controls.some((each) => each === strip)}>
                  <summary>${text.readings.controls(controls.length)}</summary>
                  ${this.rackTemplate(text.readings.controlRack, controls, strip)}
                </details>`
          }
          ${
            trials.size === 0
              ? nothing
              : html`<p class="quiet small">${text.readings.trials(trialsOf(strips).length)}</p>`
          }
          <div class="actions">
            ${button(
              text.readings.newStrip,
              () => {
                this.add(newStrip(this.document, strip, 'film'));
              },
              'Ctrl+Enter',
            )}
            ${
              twin === null
                ? nothing
                : button(text.readings.newTreated, () => {
                    this.add(newTreatedStrip(this.document, twin));
                  })
            }
            ${button(text.readings.newPaperStrip, () => {
              this.add(newStrip(this.document, strip, 'paper'));
            })}
          </div>
          ${strip === null ? nothing : this.factsTemplate(strip)}
        </div>
        ${strip === null ? nothing : this.sheetTemplate(strip, this.late.value ?? [])}
      </div>
      <details class="no-print" @toggle=${this.onInstrument}>
        <summary>${text.readings.instrument}</summary>
        ${
          this.instrumentHere
            ? html`<wb-instrument
                .enter=${this.enterReading}
                .next=${this.nextPlace}
              ></wb-instrument>`
            : nothing
        }
      </details>
      <details class="no-print" @toggle=${this.onScan}>
        <summary>${text.readings.scan}</summary>
        ${this.scanHere ? html`<wb-scan></wb-scan>` : nothing}
      </details>
    </section>`;
  }

  override connectedCallback(): void {
    super.connectedCallback();
    addEventListener('paste', this.onPagePaste);
  }

  override disconnectedCallback(): void {
    removeEventListener('paste', this.onPagePaste);
    super.disconnectedCallback();
  }

  /** A table pasted anywhere but into a field: into the chosen strip while that is unread, else a new one. */
  private readonly onPagePaste = (event: ClipboardEvent): void => {
    if (event.defaultPrevented || event.composedPath().some(takesPastes)) return;
    const pasted = event.clipboardData?.getData('text') ?? '';
    if (/^\s*[{[<]/.test(pasted) || parseBlock(pasted, null) === null) return;
    event.preventDefault();
    const strip = this.app.value?.strip ?? null;
    const isFree = strip !== null && !hasReadings(strip);
    if (!isFree) this.add(newStrip(this.document, strip, strip?.material ?? 'film'));
    void this.pasteIntoSheet(pasted);
  };

  private async pasteIntoSheet(pasted: string): Promise<void> {
    await this.updateComplete;
    await this.worksheet?.updateComplete;
    this.worksheet?.paste(pasted);
  }

  /** The reader of scans is fetched when it is unfolded. */
  private readonly onScan = async (event: Event): Promise<void> => {
    if (!(event.target as HTMLDetailsElement).open || this.scanHere) return;
    await import('../scan/scan-reader.ts');
    this.scanHere = true;
  };

  private readonly onInstrument = async (event: Event): Promise<void> => {
    if (!(event.target as HTMLDetailsElement).open || this.instrumentHere) return;
    await import('../instrument/instrument-panel.ts');
    this.nextPlace = this.worksheet?.nextPlace ?? null;
    this.instrumentHere = true;
  };

  private readonly onCursor = (event: Event): void => {
    this.nextPlace = (event.target as Worksheet).nextPlace;
  };

  /** By keyboard out of the sheet, which has a stop for every cell. */
  private readonly onLeave = (event: CustomEvent<'rack' | 'next-strip'>): void => {
    const strip = this.app.value?.strip ?? null;
    if (event.detail === 'next-strip') {
      this.add(newStrip(this.document, strip, strip?.material ?? 'film'));
    } else this.focusRack();
  };

  /** The chosen strip in the rack, or where the first one is begun. */
  focusRack(): void {
    const root = this.renderRoot;
    const chosen = root.querySelector<HTMLElement>('.rack button[aria-pressed="true"]');
    (chosen ?? root.querySelector<HTMLElement>('button'))?.focus();
  }

  private readonly enterReading = (typed: string): Entered =>
    this.worksheet?.enterReading(typed) ?? { status: 'no-strip' };

  private get document() {
    return this.app.app.store.state.document;
  }

  private rackTemplate(
    name: string,
    strips: readonly Strip[],
    chosen: Strip | null,
  ): TemplateResult {
    return html`<ul class="rack" aria-label=${name}>
      ${repeat(
        strips,
        ({ id }) => id,
        (each) => this.rackedTemplate(each, each === chosen),
      )}
    </ul>`;
  }

  private rackedTemplate(strip: Strip, chosen: boolean): TemplateResult {
    const choose = () => {
      this.app.app.session.set({ stripId: strip.id });
    };
    return html`<li>
      <button aria-pressed=${chosen ? 'true' : 'false'} @click=${choose}>
        ${strip.name === '' ? text.readings.unnamed : strip.name}<small
          >${text.readings.facts(strip)}</small
        >
      </button>
    </li>`;
  }

  private factsTemplate(strip: Strip): TemplateResult {
    return html`<div class="facts">
      <div class="fields">
        ${textEntry({
          id: 'name',
          label: text.readings.name,
          value: strip.name,
          onType: (name) => {
            const mergeKey = `name ${strip.id}`;
            this.app.app.store.dispatch({
              type: 'strip/change',
              id: strip.id,
              changes: { name },
              mergeKey,
            });
          },
        })}
        ${choice({
          id: 'unit',
          label: text.readings.unit,
          selected: this.app.value?.unit ?? 'density',
          options: UNITS.map((unit) => [unit, text.units[unit]]),
          onChoose: (unit) => {
            this.app.app.session.set({ unit: unit as ReadingUnit });
          },
        })}
        ${this.meterTemplate()}
      </div>
      <wb-strip-details></wb-strip-details>
    </div>`;
  }

  /** What a light meter needs: the open light, and its step for the error. */
  private meterTemplate(): TemplateResult | typeof nothing {
    const { unit, meters } = this.app.value ?? {};
    if (unit === undefined || meters === undefined || !isMeterScale(unit)) return nothing;
    return meterFields(unit, meters[unit], (changes) => {
      const next = { ...meters, [unit]: { ...meters[unit], ...changes } };
      this.app.app.session.set({ meters: next });
    });
  }

  private sheetTemplate(strip: Strip, warnings: readonly Warning[]): TemplateResult {
    const view = this.app.value;
    const prefix = `strip/${strip.id}/`;
    const kept = Object.keys(view?.asTyped ?? {}).filter((key) => key.startsWith(prefix)).length;
    const reversed = warnings.some(
      ({ code, details }) =>
        code === 'density-falls-with-exposure' && details['kind'] === 'reversed',
    );
    const without = view?.fit?.readings.stepsWithoutExposure ?? [];
    const { store } = this.app.app;
    return html`<div class="sheet-side">
      <p class="quiet small">${text.readings.pasteHint}</p>
      <div class="scroll">
        <wb-worksheet @wb-cursor=${this.onCursor} @wb-leave=${this.onLeave}></wb-worksheet>
      </div>
      ${kept > 0 ? html`<p class="wrong">${text.readings.kept(kept)}</p>` : nothing}
      ${
        without.length > 0
          ? html`<p class="wrong">${text.readings.withoutExposure(without)}</p>`
          : nothing
      }
      ${this.tooFewTemplate(strip)} ${warningList(warnings)}
      <div class="actions">
        ${
          reversed
            ? button(text.readings.reverse, () => {
                store.dispatch({ type: 'rows/reverse-readings', stripId: strip.id });
              })
            : nothing
        }
        ${button(text.readings.addStep, () => {
          const step = (strip.rows.at(-1)?.step ?? 0) + 1;
          const rows = [{ step, logExposure: null, densities: [null] }];
          store.dispatch({ type: 'rows/insert', stripId: strip.id, row: strip.rows.length, rows });
        })}
        ${button(text.readings.addReplicate, () => {
          this.addReplicate(strip);
        })}
        ${button(text.readings.remove, () => {
          this.removeStrip(strip);
        })}
      </div>
    </div>`;
  }

  /** Said once the user has begun: an unread strip needs no reproach. */
  private tooFewTemplate(strip: Strip): TemplateResult | typeof nothing {
    const fit = this.app.value?.fit;
    if (!hasReadings(strip) || fit?.fit.status !== 'not-determined') return nothing;
    if (fit.fit.reason !== 'too-few-readings') return nothing;
    const { logExposures } = fit.readings;
    return html`<p class="wrong">${text.readings.tooFew(new Set(logExposures).size)}</p>`;
  }

  private add(entry: Strip): void {
    const { store, session } = this.app.app;
    store.dispatch({ type: 'strip/add', entry });
    session.set({ stripId: entry.id, announcement: { says: text.readings.added(entry.name) } });
    void this.focusFirstCell();
  }

  private async focusFirstCell(): Promise<void> {
    await this.updateComplete;
    await this.worksheet?.updateComplete;
    this.worksheet?.focusCell(0, 1);
  }

  /** Widens the first row; the sheet has as many columns as its widest row. */
  private addReplicate(strip: Strip): void {
    const row = strip.rows[0];
    if (row === undefined) return;
    const length = replicateCount(strip) + 1;
    const densities = Array.from({ length }, (_, i) => row.densities[i] ?? null);
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
      announcement: { says: text.readings.removed(strip.name) },
    });
    void this.updateComplete.then(() => {
      this.focusRack();
    });
  }
}

/** Control strips beyond a few: a year of them would push everything else out of sight. */
function foldedControls(strips: readonly Strip[]): readonly Strip[] {
  const controls = strips.filter(({ control }) => control);
  return controls.length > MOST_CONTROLS ? controls : [];
}

/** Whether an element has its own use for what is pasted into it. */
function takesPastes(element: EventTarget): boolean {
  return (
    element instanceof HTMLInputElement ||
    element instanceof HTMLTextAreaElement ||
    element instanceof HTMLDialogElement
  );
}

const readRows = ({ rows }: Strip) =>
  rows.filter(({ densities }) => densities.some((density) => density !== null)).length;

const hasReadings = (strip: Strip): boolean =>
  readRows(strip) > 0 || strip.unexposedDensities.length > 0;

function says(strip: Strip): string {
  const read = readRows(strip);
  return text.readings.says(read, strip.rows.length, strip.unexposedDensities.length);
}

function button(label: string, onClick: () => void, keys?: string): TemplateResult {
  return html`<button @click=${onClick} title=${keys ?? nothing}>${label}</button>`;
}

declare global {
  interface HTMLElementTagNameMap {
    'wb-readings': ReadingsStation;
  }
}
