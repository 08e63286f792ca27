/**
 * The facts of the chosen strip: tablet, exposure, development and, for a toned strip, its bath and
 * the strip that it is compared with. Folded away until they must be changed.
 */
import { nominalTablets } from '@wedgebook/data';
import { MODELLED_PROCESS, tabletLookup, type Film, type Strip } from '@wedgebook/notebook';
import { css, html, LitElement, nothing, type TemplateResult } from 'lit';
import { customElement, query, state } from 'lit/decorators.js';
import { live } from 'lit/directives/live.js';
import { choice, dayEntry, noteEntry, textEntry } from '../parts/fields.ts';
import { sharedStyles } from '../parts/styles.ts';
import { AppController } from '../state/app-controller.ts';
import { text } from '../text.ts';
import { freshName, newId, unreadRows } from '../worksheet/new-entries.ts';
import { parseTablet } from '../worksheet/parse-tablet.ts';
import '../parts/number-field.ts';

/** Choice that makes a film or a developer rather than naming one. */
const NEW = '+';

@customElement('wb-strip-details')
export class StripDetails extends LitElement {
  static override styles = [
    sharedStyles,
    css`
      wb-number {
        --field-width: 5.5rem;
      }
      textarea {
        width: 100%;
        min-height: 5rem;
      }
      select,
      .field input:not([type]) {
        width: 100%;
      }
      .field {
        flex: 1 1 14rem;
        max-width: 22rem;
      }
      .tick {
        display: flex;
        gap: 0.6rem;
        align-items: center;
        min-height: 2.75rem;
        margin: 0;
      }
    `,
  ];

  @state() private tabletFault: string | null = null;
  @query('#own') private readonly own!: HTMLTextAreaElement | null;

  private readonly app = new AppController(this, ({ document, session }, { derive }) => ({
    strip: derive.stripOf(document, session.stripId),
    strips: document.strips,
    films: document.films,
    developers: document.developers,
    tablets: document.tablets,
  }));

  protected override render(): TemplateResult | typeof nothing {
    const view = this.app.value;
    const strip = view?.strip ?? null;
    if (view === undefined || strip === null) return nothing;
    const named = [...nominalTablets, ...view.tablets];
    const tablet = named.find(({ id }) => id === strip.tabletId)?.name ?? text.readings.noTablet;
    return html`<details>
      <summary>${text.readings.details(strip, tablet)}</summary>
      <div class="fields">
        ${choice({
          id: 'tablet',
          label: text.readings.tablet,
          selected: strip.tabletId ?? '',
          options: [
            ...named.map(({ id, name }): [string, string] => [id, name]),
            ['', text.readings.noTablet],
          ],
          onChoose: (id) => {
            this.chooseTablet(strip, id === '' ? null : id);
          },
        })}
        ${this.exposureTemplate(strip)}
        ${strip.material === 'film' ? this.filmTemplate(strip) : nothing}
        ${strip.treatment === null ? nothing : this.treatmentTemplate(strip, strip.treatment)}
      </div>
      ${noteEntry({
        id: 'note',
        label: text.readings.note,
        value: strip.note,
        onType: (note) => {
          this.change(strip, { note }, 'note');
        },
      })}
      <details>
        <summary>${text.readings.ownTablet}</summary>
        <label for="own">${text.readings.ownTabletHint}</label>
        <textarea
          id="own"
          rows="4"
          aria-invalid=${this.tabletFault === null ? nothing : 'true'}
          aria-describedby="own-fault"
        ></textarea>
        <p class=${this.tabletFault === null ? '' : 'wrong'} id="own-fault">${this.tabletFault}</p>
        <button
          @click=${() => {
            this.addTablet(strip);
          }}
        >
          ${text.readings.useTablet}
        </button>
      </details>
    </details>`;
  }

  private exposureTemplate(strip: Strip): TemplateResult {
    const { exposure } = strip;
    return html`${choice({
      id: 'exposure',
      label: text.readings.exposure,
      selected: exposure.kind,
      options: [
        ['relative', text.readings.relative],
        ['absolute', text.readings.absolute],
      ],
      onChoose: (kind) => {
        // The light is not known until it is typed; until then the steps have no exposure.
        this.change(strip, {
          exposure: kind === 'absolute' ? { kind, sourceLogExposure: null } : { kind: 'relative' },
        });
      },
    })}
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
            @wb-value=${({ detail }: CustomEvent<number | null>) => {
              const next = { kind: 'absolute', sourceLogExposure: detail } as const;
              this.change(strip, { exposure: next }, 'source');
            }}
          ></wb-number>`
        : nothing
    }`;
  }

  private filmTemplate(strip: Strip): TemplateResult {
    const { development } = strip;
    const films = this.app.value?.films ?? [];
    const set = (minutes: number | null, celsius: number) => {
      this.change(strip, { development: minutes === null ? null : { minutes, celsius } }, 'dev');
    };
    const film = films.find(({ id }) => id === strip.filmId) ?? null;
    return html`${choice({
        id: 'film',
        label: text.readings.film,
        selected: film?.id ?? '',
        options: [
          ['', text.readings.noFilm],
          ...films.map(({ id, name }): [string, string] => [id, name]),
          [NEW, text.readings.newFilm],
        ],
        onChoose: (id) => {
          if (id === NEW) this.addFilm(strip);
          else this.change(strip, { filmId: id === '' ? null : id });
        },
      })}
      ${film === null ? nothing : this.filmNamesTemplate(film)}
      <wb-number
        label=${text.readings.developed}
        unit="min"
        key=${`strip/${strip.id}/minutes`}
        optional
        .value=${development?.minutes ?? null}
        .min=${0.01}
        .max=${10_000}
        .step=${0.5}
        @wb-value=${({ detail }: CustomEvent<number | null>) => {
          set(detail, development?.celsius ?? 20);
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
              @wb-value=${({ detail }: CustomEvent<number>) => {
                set(development.minutes, detail);
              }}
            ></wb-number>`
      }
      ${dayEntry('processed', text.readings.processedOn, strip.processedOn, (processedOn) => {
        this.change(strip, { processedOn });
      })}
      <div class="field">
        <label class="tick"
          ><input
            id="control"
            type="checkbox"
            .checked=${live(strip.control)}
            @change=${(event: Event) => {
              this.change(strip, { control: (event.target as HTMLInputElement).checked });
            }}
          />${text.readings.control}</label
        >
      </div>`;
  }

  private filmNamesTemplate(film: Film): TemplateResult {
    const change = (changes: Partial<Film>, gesture: string) => {
      const mergeKey = `${gesture} ${film.id}`;
      this.app.app.store.dispatch({ type: 'film/change', id: film.id, changes, mergeKey });
    };
    return html`${textEntry({
      id: 'film-name',
      label: text.readings.filmName,
      value: film.name,
      onType: (name) => {
        change({ name }, 'film');
      },
    })}
    ${this.developerTemplate(film)}`;
  }

  private developerTemplate(film: Film): TemplateResult {
    const { store } = this.app.app;
    const developers = this.app.value?.developers ?? [];
    const developer = developers.find(({ id }) => id === film.developerId) ?? null;
    return html`${choice({
      id: 'developer',
      label: text.readings.developer,
      selected: developer?.id ?? '',
      options: [
        ['', text.readings.noDeveloper],
        ...developers.map(({ id, name }): [string, string] => [id, name]),
        [NEW, text.readings.newDeveloper],
      ],
      onChoose: (chosen) => {
        const id = chosen === NEW ? newId() : chosen;
        const name = freshName(text.names.developer, developers);
        store.dispatch({
          type: 'several',
          commands: [
            ...(chosen === NEW
              ? [{ type: 'developer/add', entry: { id, name, note: '' } } as const]
              : []),
            { type: 'film/change', id: film.id, changes: { developerId: id === '' ? null : id } },
          ],
        });
      },
    })}
    ${
      developer === null
        ? nothing
        : textEntry({
            id: 'developer-name',
            label: text.readings.developerName,
            value: developer.name,
            onType: (name) => {
              const { id } = developer;
              const mergeKey = `developer ${id}`;
              store.dispatch({ type: 'developer/change', id, changes: { name }, mergeKey });
            },
          })
    }`;
  }

  private addFilm(strip: Strip): void {
    const id = newId();
    const name = freshName(text.names.film, this.app.value?.films ?? []);
    this.app.app.store.dispatch({
      type: 'several',
      commands: [
        { type: 'film/add', entry: { id, name, developerId: null, note: '' } },
        { type: 'strip/change', id: strip.id, changes: { filmId: id } },
      ],
    });
  }

  private treatmentTemplate(
    strip: Strip,
    treatment: NonNullable<Strip['treatment']>,
  ): TemplateResult {
    const partners = (this.app.value?.strips ?? []).filter(
      (each) => each.id !== strip.id && each.material === 'film' && each.treatment === null,
    );
    const set = (changes: Partial<typeof treatment>, gesture?: string) => {
      this.change(strip, { treatment: { ...treatment, ...changes } }, gesture);
    };
    const fields = [
      ['partsWater', text.treatment.dilution, '1+', '', 1000, 1],
      ['minutes', text.treatment.minutes, '', 'min', 10_000, 0.5],
      ['celsius', text.treatment.temperature, '', '°C', 60, 0.5],
    ] as const;
    return html`${textEntry({
      id: 'process',
      label: text.readings.process,
      value: treatment.process,
      onType: (process) => {
        set({ process }, 'process');
      },
    })}
    ${
      treatment.process === MODELLED_PROCESS
        ? nothing
        : html`<p class="quiet small">${text.readings.notModelled(MODELLED_PROCESS)}</p>`
    }
    ${fields.map(
      ([name, label, lead, unit, max, step]) =>
        html`<wb-number
          label=${label}
          lead=${lead}
          unit=${unit}
          key=${`strip/${strip.id}/bath-${name}`}
          ?optional=${name !== 'celsius'}
          .value=${treatment[name]}
          .min=${0}
          .max=${max}
          .step=${step}
          @wb-value=${({ detail }: CustomEvent<number | null>) => {
            set({ [name]: detail }, `bath-${name}`);
          }}
        ></wb-number>`,
    )}
    ${choice({
      id: 'partner',
      label: text.readings.partner,
      selected: treatment.untreatedStripId ?? '',
      options: [
        ['', text.readings.noPartner],
        ...partners.map(({ id, name }): [string, string] => [id, name]),
      ],
      onChoose: (id) => {
        set({ untreatedStripId: id === '' ? null : id });
      },
    })}`;
  }

  private change(strip: Strip, changes: Partial<Strip>, gesture?: string): void {
    const mergeKey = gesture === undefined ? {} : { mergeKey: `${gesture} ${strip.id}` };
    this.app.app.store.dispatch({ type: 'strip/change', id: strip.id, changes, ...mergeKey });
  }

  /** A strip without readings takes the new tablet's steps; one with readings keeps its rows. */
  private chooseTablet(strip: Strip, tabletId: string | null): void {
    const { document } = this.app.app.store.state;
    const densities = tabletId === null ? null : tabletLookup(document)(tabletId);
    const rows = isRead(strip) || densities === null ? strip.rows : unreadRows(densities);
    this.change(strip, { tabletId, rows });
  }

  private addTablet(strip: Strip): void {
    const parsed = parseTablet(this.own?.value ?? '');
    this.tabletFault = parsed.status === 'read' ? null : parsed.sentence;
    if (parsed.status !== 'read' || this.own === null) return;
    const { densities } = parsed;
    const id = newId();
    const number = (this.app.value?.tablets.length ?? 0) + 1;
    const name = text.names.ownTablet(densities.length, number);
    const rows = isRead(strip) ? strip.rows : unreadRows(densities);
    this.app.app.store.dispatch({
      type: 'several',
      commands: [
        { type: 'tablet/add', entry: { id, name, densities, kind: 'calibrated', note: '' } },
        { type: 'strip/change', id: strip.id, changes: { tabletId: id, rows } },
      ],
    });
    this.own.value = '';
    this.app.say(text.readings.tabletAdded(name));
  }
}

function isRead(strip: Strip): boolean {
  return strip.rows.some((row) => row.densities.some((density) => density !== null));
}

declare global {
  interface HTMLElementTagNameMap {
    'wb-strip-details': StripDetails;
  }
}
