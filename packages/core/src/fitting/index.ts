/**
 * The fitting room: least squares, models, uncertainty, smoothing, model choice.
 */
export { akaikeCorrected } from './akaike-corrected.ts';
export { asDrawn } from './as-drawn.ts';
export { asDrawnCurve } from './as-drawn-curve.ts';
export type { DrawnCurve } from './as-drawn.ts';
export { cholesky, choleskyInverse, choleskySolve } from './cholesky.ts';
export { fDistributionUpperTail } from './f-distribution-upper-tail.ts';
export { fitModel } from './fit-model.ts';
export type { FitModelOptions, ModelFit, Sigma, Solver } from './fit-model.ts';
export { leastSquares } from './least-squares.ts';
export { leastSquaresInUnits } from './least-squares-in-units.ts';
export type {
  FitReport,
  FitStatus,
  LeastSquaresFit,
  LeastSquaresOptions,
  LeastSquaresProblem,
  StopTest,
} from './least-squares-types.ts';
export { median } from './median.ts';
export { CURVE_MODELS, MODELS, modelByName } from './model-by-name.ts';
export type {
  CurveFunction,
  CurveModel,
  InnerParameters,
  Model,
  ParameterBounds,
} from './model.ts';
export { exponentialRise } from './models/exponential-rise.ts';
export { hurterDriffield } from './models/hurter-driffield.ts';
export { hurterDriffieldCurve } from './models/hurter-driffield-curve.ts';
export { logLogistic3 } from './models/log-logistic-3.ts';
export { logLogistic4 } from './models/log-logistic-4.ts';
export { logistic4 } from './models/logistic-4.ts';
export { logistic5 } from './models/logistic-5.ts';
export { logistic4Curve, logistic5Curve } from './models/logistic-curve.ts';
export { michaelisMenten } from './models/michaelis-menten.ts';
export { straightLine } from './models/straight-line.ts';
export { toeOnlyCurve, toeShoulderCurve } from './models/toe-curve.ts';
export { toeOnly } from './models/toe-only.ts';
export { toeShoulder } from './models/toe-shoulder.ts';
export { weibull4 } from './models/weibull-4.ts';
export { robustLeastSquares } from './robust-least-squares.ts';
export type { RobustFit } from './robust-least-squares.ts';
export { studentTQuantile, studentTUpperTail } from './student-t-quantile.ts';
export { monotoneSlopes, type MonotoneSlope } from './monotone-slopes.ts';
export { monotoneSmooth } from './monotone-smooth.ts';
export type { MonotoneSmoothOptions, SmoothCurve } from './monotone-smooth.ts';
export { monotoneSmoothModel } from './monotone-smooth-model.ts';
export { fitToeShoulder } from './fit-toe-shoulder.ts';
export type { ToeShoulderFit } from './fit-toe-shoulder.ts';
export { fitDefaultCurve, LACK_OF_FIT_PROBABILITY } from './fit-default-curve.ts';
export type { CurveMember, DefaultCurveFit } from './fit-default-curve.ts';
export { lackOfFit } from './lack-of-fit.ts';
export type { LackOfFit, PureErrorTest } from './lack-of-fit.ts';
export { serialCorrelation } from './serial-correlation.ts';
export type { SerialCorrelation } from './serial-correlation.ts';
export { tangentBasis } from './tangent-basis.ts';
export type { TangentBasis } from './tangent-basis.ts';
export { linearLeastSquares } from './linear-least-squares.ts';
export type { DesignColumn, LinearFit } from './linear-least-squares.ts';
export { polynomialLeastSquares } from './polynomial-least-squares.ts';
export { akaikeWeights, averageEstimates } from './average-estimates.ts';
export type { WeightedEstimate } from './average-estimates.ts';
export { likelySlip } from './likely-slip.ts';
export type { Slip } from './likely-slip.ts';
export { parametricBootstrap, percentileInterval } from './parametric-bootstrap.ts';
export type { Bootstrap, BootstrapOptions, Interval } from './parametric-bootstrap.ts';
export { predictWithBand } from './predict-with-band.ts';
export type { Prediction } from './predict-with-band.ts';
export { randomNormal } from './random-normal.ts';
export { stepSlip } from './step-slip.ts';
export type { CurveForm, FittedCurve, StepSlip, StepSlipOptions } from './step-slip.ts';
export { stepSlipBySmooth } from './step-slip-by-smooth.ts';
export { suspectReadings } from './suspect-readings.ts';
export type { FittedReadings, SuspectOptions, SuspectReading } from './suspect-readings.ts';
export { lineThrough } from './line-through.ts';
export type { Line, LineMethod } from './line-through.ts';
export { covarianceAfterObservation } from './covariance-after-observation.ts';
export { quadraticForm } from './quadratic-form.ts';
export { unconditionalError, type DerivedOfModel } from './unconditional-error.ts';
