/**
 * The names that a CGATS.17 file of strips uses. The standard has density columns but no keyword
 * for log exposure, tablet density, development or bath: those are private and declared as such.
 *
 * Sources: [CGATS17], ISO 28178: header keywords, D_ columns, KEYWORD and DATA_FORMAT_IDENTIFIER.
 * Deviations: SAMPLE_ID holds the step, repeated for replicates; one table for each strip.
 */
import type { Channel } from '../../document/document.ts';
import type { ReadingsStrip } from '../readings-strip.ts';

export const CGATS_TYPE = 'CGATS.17';
export const STEP_COLUMN = 'SAMPLE_ID';
export const LOG_EXPOSURE_COLUMN = 'LOG_EXPOSURE';
export const TABLET_DENSITY_COLUMN = 'TABLET_DENSITY';

/** Density column of each channel; ultraviolet is private. */
export const DENSITY_COLUMNS = {
  visual: 'D_VIS',
  red: 'D_RED',
  green: 'D_GREEN',
  blue: 'D_BLUE',
  ultraviolet: 'D_UV',
} as const satisfies Record<Channel, string>;

/** A density through the filter that responds most: the channel is not told. */
export const MAJOR_FILTER_COLUMN = 'D_MAJOR_FILTER';

/** Private header keywords of one strip, in the order written. */
export const STRIP_KEYWORDS = {
  STRIP: 'name',
  MATERIAL: 'material',
  DEVELOPMENT_MINUTES: 'minutes',
  DEVELOPMENT_CELSIUS: 'celsius',
  TREATMENT: 'treatment',
  PARTS_WATER: 'partsWater',
  BATH_MINUTES: 'bathMinutes',
  BATH_CELSIUS: 'bathCelsius',
  PROCESSED_ON: 'processedOn',
  SETTING: 'setting',
  SOFT_SECONDS: 'softSeconds',
  HARD_SECONDS: 'hardSeconds',
} as const satisfies Readonly<Record<string, keyof ReadingsStrip>>;

/** Private header keyword: yes for a control strip. */
export const CONTROL_KEYWORD = 'CONTROL';

/** Private header keyword: base + fog readings, separated by blanks. */
export const UNEXPOSED_KEYWORD = 'UNEXPOSED_DENSITIES';
