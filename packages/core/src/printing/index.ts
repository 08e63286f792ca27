export {
  matchNegative,
  type MatchOptions,
  type NegativeMatch,
  type NegativeRange,
  type PaperFit,
} from './match-negative.ts';
