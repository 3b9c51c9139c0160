import { judgeReading, judgeRunValue } from "../../trial/index.ts";

/** The part of the trial that draws on the equations of the fluids, in a file of its own. */
export { judgeReading, judgeRunValue };
export interface JudgeModule {
  readonly judgeReading: typeof judgeReading;
  readonly judgeRunValue: typeof judgeRunValue;
}
