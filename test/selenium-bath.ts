/** The built-in numbers, for tests beside modules of core, which itself knows no data. */
export {
  ansiGradeTable,
  builtInSplit,
  laboratoryGradeTable,
  processDefaults,
  seleniumDefaults,
} from '@wedgebook/data';
