/** What is said of options that nothing was made of: a part of the command's words. */

const named = (names: readonly string[]): string =>
  `${names.map((name) => `--${name}`).join(', ')} ${names.length === 1 ? 'was' : 'were'}`;

/** Why, and what to give too. */
export const UNUSED = {
  treated: ': the built-in bath is not fitted. Give FILE with treated strips.',
  treatedOfFilm: ': the built-in bath is not fitted. Give --treated FILE.',
  negative:
    ', for no bath is planned. Give the negative too: --range DR, or --shadow D and --highlight D.',
  bath: ', for no selenium bath is asked for. Give --bath, without --bath-gain.',
  anyPaper: ', for no paper is named. Give --paper FILE or --scale S.',
  paper: ', for no paper is read. Give --paper FILE.',
  file: ', for no file of strips is read.',
  strips: ', for no strips are read. Give --paper FILE or --film FILE.',
  seconds: ' beside strips. Leave out --paper and --film, and give --seconds T, to change a time.',
  spots: ': print takes the densities of the negative, --shadow D and --highlight D.',
  testStrip: ', for no test strip is asked for. Give --test-strip N.',
  split: ', for there is no split exposure. Give strips with soft_seconds and hard_seconds.',
  csv: ', for no CSV is written. Give --to csv.',
  notebook: ', for no notebook is written. Give --to json.',
} as const;

/** The whole sentence. */
export const unusedText = (names: readonly string[], remedy: string): string =>
  `${named(names)} not used${remedy}`;
