import { holdFinding, judgeReading, judgeRunValue } from "../../trial/index.ts";

/** The part of the trial that draws on the equations of the fluids, in a file of its own. */
export { holdFinding, judgeReading, judgeRunValue };
export interface JudgeModule {
  readonly holdFinding: typeof holdFinding;
  readonly judgeReading: typeof judgeReading;
  readonly judgeRunValue: typeof judgeRunValue;
}
