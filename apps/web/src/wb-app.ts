/**
 * The page: the notebook's head, the stations one under another, and the curve sheet beside them.
 */
import { ContextProvider } from '@lit/context';
import {
  emptyDocument,
  figuresWarning,
  notebookToText,
  soundFigures,
  warningText,
  type NotebookDocument,
} from '@wedgebook/notebook';
import { html, LitElement, nothing, type TemplateResult } from 'lit';
import { customElement, property, query, state } from 'lit/decorators.js';
import { keyed } from 'lit/directives/keyed.js';
import { live } from 'lit/directives/live.js';
import type { SaveFault } from './keeping/found.ts';
import type { Keeper } from './keeping/keeper.ts';
import { demoDocument } from './state/demo.ts';
import { download } from './parts/download.ts';
import { FileDrop } from './parts/file-drop.ts';
import { jumpTo } from './parts/jump-to.ts';
import { LazyStationElement } from './parts/lazy-station.ts';
import { trueMinus } from './parts/notices.ts';
import { PrintMark } from './parts/print-mark.ts';
import { updateTemplate } from './parts/update-notice.ts';
import { sharedStyles } from './parts/styles.ts';
import { appContext, type App, type ThemeChoice } from './state/app.ts';
import { shallowEqual } from './state/app-controller.ts';
import { LAZY_STATIONS } from './stations/lazy-stations.ts';
import { notesOf } from './state/notes-of-file.ts';
import { headOf } from './state/head-of.ts';
import { firstStripId } from './state/start.ts';
import { rememberTheme, showTheme } from './theme/theme.ts';
import { text } from './text.ts';
import { appStyles } from './wb-app.styles.ts';
import './parts/toast.ts';
import './stations/readings-station.ts';
import './stations/sheet.ts';
import './stations/curve-station.ts';
import './stations/measures-station.ts';
import './stations/match-station.ts';
import './stations/treatment-station.ts';

const THEMES: readonly ThemeChoice[] = ['system', 'light', 'dim', 'darkroom'];
const STATIONS = ['readings', 'curve', 'measures', 'match', 'treatment'] as const;
const ALL_STATIONS = [
  ...STATIONS.map((name) => ({ name, title: text[name].title })),
  ...LAZY_STATIONS,
];

@customElement('wb-app')
export class WedgebookApp extends LitElement {
  static override styles = [sharedStyles, appStyles];

  @property({ attribute: false }) app!: App;
  @property({ attribute: false }) keeper!: Keeper;
  @state() private importFault: string | null = null;
  /** What was noted while reading a file. */
  @state() private importNotes: readonly string[] = [];
  /** The table read last, and the notebook as it was left. */
  @state() private lastTable: { file: File; after: NotebookDocument } | null = null;
  @query('#file') private readonly file!: HTMLInputElement | null;

  protected readonly printing = new PrintMark(this);
  protected readonly drop = new FileDrop(this, (files) => {
    const [file] = files;
    if (files.length > 1) this.say(text.app.dropOne);
    else if (file !== undefined) void this.read(file, false);
  });
  private readonly provider = new ContextProvider(this, { context: appContext });
  private off: (() => void)[] = [];
  private shown: ReturnType<typeof headOf> | null = null;

  override connectedCallback(): void {
    super.connectedCallback();
    this.provider.setValue(this.app);
    const update = () => {
      const { state } = this.app.store;
      const shown = headOf({ ...state, session: this.app.session.value });
      if (shallowEqual(shown, this.shown)) return;
      this.shown = shown;
      this.requestUpdate();
    };
    this.off = [this.app.store.subscribe(update), this.app.session.subscribe(update)];
    addEventListener('keydown', this.onKey);
  }

  override disconnectedCallback(): void {
    for (const off of this.off) off();
    removeEventListener('keydown', this.onKey);
    super.disconnectedCallback();
  }

  protected override render(): TemplateResult {
    const { document } = this.app.store.state;
    const { announcement, saveFault, update, offline } = this.app.session.value;
    return html`
      ${this.headTemplate(document)}
      <nav class="no-print" aria-label=${text.app.stations}>
        <ul>
          ${ALL_STATIONS.map(({ name, title }) => html`<li><a href=${`#${name}`} @click=${this.onJump}>${title}</a></li>`)}
        </ul>
      </nav>
      <main id="main">
        ${
          document.invented
            ? html`<div class="notice no-print">
                <p>${text.app.invented}</p>
                <button @click=${this.startEmpty}>${text.app.empty}</button>
              </div>`
            : nothing
        }
        ${saveFault === null ? nothing : this.faultTemplate(saveFault)}
        ${
          update === null
            ? nothing
            : updateTemplate(async () => {
                await this.keeper.retry();
                await update();
              })
        }
        ${this.figuresTemplate(document)}
        ${this.importFault === null ? nothing : html`<p class="notice import wrong" role="alert">${this.importFault}</p>`}
        ${
          this.importNotes.length === 0
            ? nothing
            : html`<div class="notice import" role="status">
                <ul>
                  ${this.importNotes.map((note) => html`<li>${note}</li>`)}
                </ul>
                <button
                  @click=${() => {
                    this.importNotes = [];
                    void this.focusReadings();
                  }}
                >
                  ${text.app.understood}
                </button>
                ${this.askColumnsTemplate()}
              </div>`
        }
        <div class="page">
          <wb-readings id="readings"></wb-readings>
          <div class="beside"><wb-sheet></wb-sheet></div>
          <wb-curve id="curve"></wb-curve>
          <wb-measures id="measures"></wb-measures>
          <wb-match id="match"></wb-match>
          <wb-treatment id="treatment"></wb-treatment>
          ${LAZY_STATIONS.map((station) => html`<wb-lazy-station id=${station.name} .station=${station}></wb-lazy-station>`)}
        </div>
      </main>
      <footer>
        <p>${text.app.footer}</p>
        <p>${text.app.safelight}</p>
        ${offline === null ? nothing : html`<p class="no-print">${text.app.offline[offline]}</p>`}
        ${document.invented ? nothing : html`<button class="no-print" @click=${this.openDemo}>${text.app.demo}</button>`}
      </footer>
      <div class="visually-hidden" role="status" aria-live="polite">
        ${keyed(announcement, html`<p>${announcement.says}</p>`)}
      </div>
      <wb-toast .announcement=${announcement}></wb-toast>
    `;
  }

  /** Offered while nothing has changed since the table was read. */
  private askColumnsTemplate(): TemplateResult | typeof nothing {
    const { lastTable } = this;
    if (lastTable?.after !== this.app.store.state.document) return nothing;
    return html`<button @click=${() => void this.read(lastTable.file, true, lastTable.after)}>
      ${text.app.askColumns}
    </button>`;
  }

  private headTemplate(document: NotebookDocument): TemplateResult {
    const { canUndo, canRedo } = this.app.store.state;
    const { theme, lastSaved, lastExported } = this.app.session.value;
    return html`<header>
      <button class="skip" @click=${this.onSkip}>${text.app.skip}</button>
      <div class="title">
        <h1 class="visually-hidden">${text.app.name}</h1>
        <span class="name" aria-hidden="true">${text.app.name}</span>
        <input
          aria-label=${text.app.title}
          .value=${live(document.title)}
          @input=${(event: Event) => {
            const title = (event.target as HTMLInputElement).value;
            this.app.store.dispatch({
              type: 'document/describe',
              changes: { title },
              mergeKey: 'title',
            });
          }}
        />
        ${document.invented ? html`<span class="tag">${text.app.inventedTag}</span>` : nothing}
      </div>
      <div class="tools no-print" role="group" aria-label=${text.app.tools}>
        <button ?disabled=${!canUndo} @click=${this.undo} title="Ctrl+Z">${text.app.undo}</button>
        <button ?disabled=${!canRedo} @click=${this.redo} title="Ctrl+Y">${text.app.redo}</button>
        <button @click=${this.export} title="Ctrl+S">${text.app.export}</button>
        <button @click=${this.chooseFile} title="Ctrl+O">${text.app.import}</button>
        <input
          id="file"
          type="file"
          accept=".json,.csv,.tsv,.txt,.cgats,application/json,text/csv,text/plain"
          hidden
          aria-label=${text.app.import}
          @change=${this.onFile}
        />
        <button class="wide-only" @click=${this.print}>${text.app.print}</button>
        <label class="theme">
          <span>${text.app.theme}</span>
          <select @change=${this.onTheme}>
            ${THEMES.map((each) => html`<option value=${each} ?selected=${each === theme}>${text.app.themes[each]}</option>`)}
          </select>
        </label>
        <button @click=${this.showKeeping}>${text.keeping.button}</button>
        <span class="kept">
          <span data-saved=${lastSaved?.toISOString() ?? nothing}>${text.app.saved(lastSaved)}</span
          >,
          <span>${text.app.exported(lastExported)}</span>
        </span>
      </div>
    </header>`;
  }

  /** Figures of a damaged file that cannot be, and a way to be rid of them. */
  private figuresTemplate(document: NotebookDocument): TemplateResult | typeof nothing {
    const { document: sound, replaced } = soundFigures(document);
    if (replaced.length === 0) return nothing;
    return html`<div class="notice" role="status">
      <p class="wrong">${trueMinus(warningText(figuresWarning(replaced)))}</p>
      <button
        @click=${() => {
          this.app.store.dispatch({ type: 'document/load', document: sound });
          this.say(text.app.figuresCorrected);
        }}
      >
        ${text.app.correctFigures}
      </button>
    </div>`;
  }

  /** Why the notebook cannot be kept, with the ways out. */
  private faultTemplate({ kind, sentence }: SaveFault): TemplateResult {
    const t = text.keeping;
    const reload = () => {
      location.reload();
    };
    return html`<div class="notice" role="alert">
      <p class="wrong">${sentence}</p>
      ${kind === 'set-aside' ? nothing : html`<button @click=${this.export}>${t.exportNow}</button>`}
      ${kind === 'full' ? html`<button @click=${this.showKeeping}>${t.button}</button>` : nothing}
      ${
        kind === 'full' || kind === 'barred'
          ? html`<button @click=${() => this.keeper.retry()}>${t.retry}</button>`
          : nothing
      }
      ${kind === 'newer' || kind === 'lost' ? html`<button @click=${reload}>${t.reload}</button>` : nothing}
    </div>`;
  }

  private readonly showKeeping = async (): Promise<void> => {
    const [{ KeepingDialog }, { openDialog }] = await Promise.all([
      import('./dialogs/keeping-dialog.ts'),
      import('./dialogs/open-dialog.ts'),
    ]);
    const dialog = new KeepingDialog();
    dialog.keeper = this.keeper;
    dialog.export = this.export;
    await openDialog(this.renderRoot, dialog);
  };

  private readonly print = () => {
    print();
  };

  private readonly undo = () => {
    this.say(this.app.store.state.canUndo ? text.app.undone : text.app.nothingToUndo);
    this.app.store.undo();
    this.mendSelection();
  };

  private readonly redo = () => {
    this.say(this.app.store.state.canRedo ? text.app.redone : text.app.nothingToRedo);
    this.app.store.redo();
    this.mendSelection();
  };

  private say(says: string): void {
    this.app.session.set({ announcement: { says } });
  }

  /** The chosen strip may have gone with the change. */
  private mendSelection(): void {
    const { document } = this.app.store.state;
    const { stripId } = this.app.session.value;
    if (document.strips.some(({ id }) => id === stripId)) return;
    this.app.session.set({ stripId: firstStripId(document) });
  }

  /** One undo for the whole page: a field's own would forget what the notebook remembers. */
  private readonly onKey = (event: KeyboardEvent) => {
    if (!(event.ctrlKey || event.metaKey) || event.altKey) return;
    const key = event.key.toLowerCase();
    const act = {
      z: event.shiftKey ? this.redo : this.undo,
      y: this.redo,
      s: this.export,
      o: this.chooseFile,
    }[key];
    if (act === undefined || (event.shiftKey && key !== 'z')) return;
    event.preventDefault();
    act();
  };

  private readonly chooseFile = (): void => this.file?.click();

  private readonly onTheme = (event: Event): void => {
    const theme = (event.target as HTMLSelectElement).value as ThemeChoice;
    this.app.session.set({
      theme,
      announcement: { says: theme === 'darkroom' ? text.app.safelight : '' },
    });
    rememberTheme(theme);
    showTheme(theme);
  };

  private readonly onSkip = (): void => {
    this.renderRoot.querySelector<HTMLElement>('#readings')?.scrollIntoView();
    this.renderRoot.querySelector('wb-readings')?.focusRack();
  };

  /** Where the button that had the focus has gone, the work goes on at the readings. */
  private async focusReadings(): Promise<void> {
    await this.updateComplete;
    const readings = this.renderRoot.querySelector('wb-readings');
    await readings?.updateComplete;
    readings?.focusRack();
  }

  /** The anchors live in the shadow tree, where the browser does not look for them. */
  private readonly onJump = async (event: Event): Promise<void> => {
    event.preventDefault();
    const id = (event.currentTarget as HTMLAnchorElement).hash;
    const station = this.renderRoot.querySelector<HTMLElement>(id);
    if (station === null) return;
    if (station instanceof LazyStationElement) await station.show();
    jumpTo(station);
  };

  private readonly export = (): void => {
    const { document } = this.app.store.state;
    const date = new Date();
    const name = text.app.fileName(document.title, date);
    download(name, notebookToText(document), 'application/json');
    this.keeper.noteExport(date);
    this.say(text.app.exportedNow(name));
  };

  private readonly onFile = async (event: Event): Promise<void> => {
    const input = event.target as HTMLInputElement;
    const [file] = input.files ?? [];
    input.value = '';
    if (file !== undefined) await this.read(file, false);
  };

  /** @param replaced - the notebook with what was read of the file before; that is taken back */
  private async read(file: File, ask: boolean, replaced: NotebookDocument | null = null) {
    this.importFault = null;
    this.importNotes = [];
    try {
      const { readChosenFile } = await import('./state/read-file.ts');
      const read = await readChosenFile(file, ask);
      if (read.kind === 'nothing') return;
      if (read.kind === 'readings') {
        if (replaced === this.app.store.state.document) this.app.store.undo();
        const { strips } = this.app.store.state.document;
        this.addReadings(read.document, file.name);
        const after = this.app.store.state.document;
        this.lastTable = read.isTable ? { file, after } : null;
        this.importNotes = notesOf(read, strips);
        return;
      }
      const [{ ImportDialog }, { openDialog }] = await Promise.all([
        import('./dialogs/import-dialog.ts'),
        import('./dialogs/open-dialog.ts'),
      ]);
      const dialog = new ImportDialog();
      dialog.incoming = read.document;
      dialog.mended = read.mended;
      dialog.keeper = this.keeper;
      dialog.addEventListener('wb-closed', () => {
        // The browser gives the focus back to where it was; after Ctrl+O that may be nowhere.
        setTimeout(() => {
          if (document.activeElement === document.body) void this.focusReadings();
        });
      });
      await openDialog(this.renderRoot, dialog);
    } catch (error) {
      this.importFault = text.app.importFailed(
        error instanceof Error ? error.message : String(error),
      );
    }
    // The page may stand far below its head, where the notices are.
    await this.updateComplete;
    this.renderRoot.querySelector('.notice.import')?.scrollIntoView({ block: 'nearest' });
  }

  /** Strips from a file of readings, and the paper that they make, join the notebook, as one step of undo. */
  private addReadings({ strips, tablets, papers }: NotebookDocument, file: string): void {
    this.app.store.dispatch({
      type: 'several',
      commands: [
        ...tablets.map((entry) => ({ type: 'tablet/add', entry }) as const),
        ...strips.map((entry) => ({ type: 'strip/add', entry }) as const),
        ...papers.map((entry) => ({ type: 'paper/add', entry }) as const),
      ],
    });
    this.app.session.set({
      stripId: strips[0]?.id ?? null,
      announcement: { says: text.app.readingsAdded(strips.length, file) },
    });
  }

  private readonly startEmpty = (): void => {
    this.load(emptyDocument(), text.app.emptied);
    void this.focusReadings();
  };

  private readonly openDemo = (): void => {
    this.load(demoDocument, text.keeping.replaced(demoDocument.title));
  };

  private load(document: NotebookDocument, says: string): void {
    void this.keeper.takeSnapshot('before-replacing');
    this.app.store.dispatch({ type: 'document/load', document });
    this.app.session.set({ stripId: firstStripId(document), announcement: { says } });
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'wb-app': WedgebookApp;
  }
}
