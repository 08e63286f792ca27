/** Treatment models, plans and cautions, for reading. */
import type {
  GradeTable,
  NextTrial,
  RangeReport,
  ResponseParameter,
  Sensitivity,
  TreatmentModel,
} from '@wedgebook/core';
import { seleniumDefaults, type Caution } from '@wedgebook/data';
import { fogChangeText } from '@wedgebook/notebook';
import { MEASURES as M, TREATMENT as T, WORDS } from '../text.ts';
import { alignedTable, factList } from './aligned-table.ts';
import { callierText, estimateText, fixed, minutesText } from './figures.ts';
import { gradesWithinText, gradeText } from './paper-text.ts';
import { gradeTableText, markText } from './provenance-text.ts';
import type { FogBeforeAfter, ShownPlan } from './treat-json.ts';
import { SURENESS, TOLD } from './treat-words.ts';
import { wrapped } from './wrapped.ts';

/** Law, dose-response with the source of every built-in figure, treated strips. */
export function modelText(model: TreatmentModel): string {
  const { law, doseResponse, treated, origin } = model;
  const { completion95Minutes: complete } = doseResponse;
  const figure = (
    name: ResponseParameter,
    [title, definition]: readonly [string, string],
  ): readonly string[] => [
    title,
    estimateText(doseResponse[name]),
    `${definition}; ${sourceText(name, model)}`,
  ];
  const usesSteepness = doseResponse.family === 'hill' || doseResponse.family === 'weibull';
  const [completeTitle, completeWords] = T.completion(complete.partsWater, complete.celsius);
  const facts = factList([
    [T.law, law.family, `${T.exponent} ${estimateText(law.exponent)}; ${T.reason[law.reason]}`],
    [T.response, doseResponse.family, ''],
    figure('maximumGain', T.maximumGain),
    figure('halfDose', T.halfDose),
    ...(usesSteepness ? [figure('steepness', T.steepness)] : []),
    figure('concentrationExponent', T.concentrationExponent),
    figure('temperatureCoefficient', T.temperatureCoefficient),
    [completeTitle, estimateText(complete, 2), completeWords],
  ]);
  const strips = alignedTable(
    T.columns.map((title, index) => ({ title, align: index === 0 ? 'left' : 'right' }) as const),
    treated.map(({ strip, partsWater, bathMinutes, bathCelsius, pairs, gain }) => [
      strip,
      `1+${partsWater}`,
      fixed(bathMinutes, 2),
      fixed(bathCelsius, 1),
      String(pairs),
      estimateText(gain),
    ]),
    '  ',
  );
  const head = `${T.model} (${T.origin[origin]})\n${facts}${sourcesText(model)}`;
  return strips === '' ? head : `${head}${T.treated}\n${strips}`;
}

/** Where each built-in value that is in use comes from. */
function sourcesText({ doseResponse }: TreatmentModel): string {
  const names = [
    ['maximumGain', T.maximumGain],
    ['halfDose', T.halfDose],
    ['concentrationExponent', T.concentrationExponent],
    ['temperatureCoefficient', T.temperatureCoefficient],
  ] as const;
  const lines = names.flatMap(([name, [title]]) => {
    if (doseResponse.origin[name] !== 'default') return [];
    const { provenance } = seleniumDefaults.parameters[name];
    return wrapped(T.builtInSource(title, provenance.source, markText(provenance)), 96, '    ');
  });
  return lines.length === 0 ? '' : `  ${T.sources}\n${lines.join('')}`;
}

function sourceText(name: ResponseParameter, { doseResponse }: TreatmentModel): string {
  const origin = doseResponse.origin[name];
  if (origin !== 'default') return origin === 'held' ? T.held : T.fromTrials;
  return `${T.fromDefaults}, ${markText(seleniumDefaults.parameters[name].provenance)}`;
}

/** What the bath makes of the negative. */
export function planText(
  shown: ShownPlan,
  table: GradeTable,
  fog: FogBeforeAfter | null,
  stain: string | null,
): string {
  const { prediction, light } = shown;
  const { bath, before, after } = prediction;
  const title = shown.kind === 'plan' ? T.plan : T.prediction;
  const head =
    shown.kind === 'plan'
      ? `${title}: ${T.reachable(shown.reachable)}; ${T.aim[shown.aim]}\n`
      : `${title}\n`;
  const facts = factList([
    [T.bath, `1+${bath.partsWater}, ${bath.celsius} °C`, ''],
    [
      T.minutes,
      `${minutesText(shown.minutes.value)}${shown.minutes.standardError === null ? '' : ` ± ${fixed(shown.minutes.standardError, 2)}`}`,
      T.complete(fixed(100 * shown.completion.value, 1)),
    ],
    ...(shown.kind === 'plan' ? [[T.gain[0], estimateText(shown.gainNeeded), T.gain[1]]] : []),
    [T.gainGot[0], estimateText(prediction.effect.gain), T.gainGot[1]],
    [T.maximumGain[0], estimateText(shown.maximumGain), T.maximumGain[1]],
  ]);
  const row = (name: string, cell: (report: RangeReport) => string) => [
    name,
    cell(before),
    cell(after),
  ];
  const beforeAfter = alignedTable(
    T.columnsBeforeAfter.map((column) => ({ title: column })),
    [
      row(M.densityRange[0], ({ densityRange }) => estimateText(densityRange)),
      row(`${M.printingRange[0]}, log10`, ({ printingRange }) => estimateText(printingRange)),
      row(M.rangeWanted[0], ({ isoRange }) =>
        isoRange === null ? '-' : `R ${isoRange.rounded} (exact ${fixed(isoRange.exact.value, 1)})`,
      ),
      row(M.paperGrade, ({ paperGrade }) => gradeText(paperGrade)),
      ...(after.gradesWithin === null
        ? []
        : [row(T.gradesWithin, ({ gradesWithin }) => gradesWithinText(gradesWithin))]),
      ...(fog === null ? [] : [[M.baseFog[0], fixed(fog.before, 3), fixed(fog.after, 3)]]),
    ],
    '  ',
  );
  const [low, high] = prediction.plausibleRange;
  const times = shown.plausibleMinutes;
  const notes = [
    ...(times === null
      ? []
      : [
          SURENESS.plausible(
            minutesText(times[0]),
            times[1] === null ? null : minutesText(times[1]),
          ),
        ]),
    T.plausible(fixed(low, 2), fixed(high, 2)),
    `${M.paperGrade}: ${gradeTableText(table)}`,
    light.builtIn === null
      ? T.callier(callierText(light))
      : T.callierBuiltIn(callierText(light), light.builtIn.name),
  ];
  const warned = stain === null ? '' : wrapped(`${WORDS.caution} ${stain}`, 96, '  ');
  return `${head}${facts}${beforeAfter}${warned}${notes.map((note) => `  ${note}\n`).join('')}`;
}

/** What the trials tell apart and what the bath does to base + fog; empty without trials. */
export function toldText(untold: string | null, { baseFogChange }: TreatmentModel): string {
  if (untold === null) return '';
  const fog = fogChangeText(baseFogChange);
  const said = fog === null ? untold : `${untold} ${fog}`;
  return `${TOLD.title}\n${wrapped(said, 96, '  ')}`;
}

/** What hangs on a minute and a degree. */
export function sensitivityText({ perMinute, perDegree }: Sensitivity): string {
  return `  ${SURENESS.sensitivity(fixed(perMinute, 4), fixed(perDegree, 4))}\n`;
}

/** The trial that would tell most. */
export function nextTrialText({ errorNow, trials }: NextTrial): string {
  const [best] = trials;
  if (best === undefined) return '';
  const { partsWater, minutes, celsius } = best.bath;
  const trial = SURENESS.trial(
    `1+${partsWater}, ${minutesText(minutes)}, ${celsius} °C`,
    fixed(errorNow, 3),
    fixed(best.errorAfter, 3),
  );
  return `${SURENESS.nextTrial}\n  ${trial}\n`;
}

/** Every caution with its source: never left out, never shortened. */
export function cautionsText(cautions: readonly Caution[]): string {
  const lines = cautions.map(
    ({ text, provenance }) =>
      `${wrapped(`${WORDS.caution} ${text}`, 96, '     ').slice(2)}${wrapped(
        T.source(provenance.source, markText(provenance)),
        96,
        '     ',
      )}`,
  );
  return `${T.cautions}\n${lines.join('')}`;
}
