import type { ComponentType } from "preact";
import type { Stage, StageView } from "../../trial/index.ts";
import { SetUp } from "../plan/set-up.tsx";
import { later } from "../shell/later.tsx";

export interface BoardProps {
  readonly trial: string;
  readonly stage: StageView;
}

// A board that draws on the equations of the fluids or on the report is loaded when its stage is opened.
const CompareBoard = later(async () => (await import("../publish/compare-board.tsx")).CompareBoard);
const LiveBoard = later(async () => (await import("../live/live-board.tsx")).LiveBoard);
const PublishBoard = later(async () => (await import("../publish/publish-board.tsx")).PublishBoard);

/** What a stage computes, below what it asks for: one board or several a stage, in this order. */
const boards: Readonly<Partial<Record<Stage, readonly ComponentType<BoardProps>[]>>> = {
  plan: [SetUp],
  prove: [LiveBoard],
  run: [LiveBoard],
  restore: [LiveBoard],
  compare: [CompareBoard],
  publish: [PublishBoard],
};

export const StageBoards = ({ trial, stage }: BoardProps) => (
  <>
    {boards[stage.stage]?.map((Board, i) => (
      <Board key={i} trial={trial} stage={stage} />
    ))}
  </>
);
