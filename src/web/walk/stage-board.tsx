import type { ComponentType } from "preact";
import type { Stage, StageView } from "../../trial/index.ts";
import { SetUp } from "../plan/set-up.tsx";
import { later } from "../shell/later.tsx";

export interface BoardProps {
  readonly trial: string;
  readonly stage: StageView;
}

// Loaded when its stage is opened: what a stage asks for must not wait for what it computes.
const AnswerBoard = later(async () => (await import("../publish/answer-board.tsx")).AnswerBoard);
const ChargeBoard = later(async () => (await import("../charging/charge-board.tsx")).ChargeBoard);
const ClaimsBoard = later(async () => (await import("../claims/claims-board.tsx")).ClaimsBoard);
const CompareBoard = later(async () => (await import("../publish/compare-board.tsx")).CompareBoard);
const ContentsBoard = later(
  async () => (await import("../identify/contents-board.tsx")).ContentsBoard,
);
const EvacuateBoard = later(
  async () => (await import("../evacuate/evacuate-board.tsx")).EvacuateBoard,
);
const FairBoard = later(async () => (await import("../publish/fair-board.tsx")).FairBoard);
const FaultsBoard = later(async () => (await import("../faults/faults-board.tsx")).FaultsBoard);
const FindBoard = later(async () => (await import("../plan/find-board.tsx")).FindBoard);
const HazardsBoard = later(async () => (await import("../hazards/hazards-board.tsx")).HazardsBoard);
const LiveBoard = later(async () => (await import("../live/live-board.tsx")).LiveBoard);
const LoopsBoard = later(async () => (await import("../publish/loops-board.tsx")).LoopsBoard);
const PublishBoard = later(async () => (await import("../publish/publish-board.tsx")).PublishBoard);
const RecoverBoard = later(
  async () => (await import("../recovery/recover-board.tsx")).RecoverBoard,
);

/** What a stage computes, below what it asks for: one board or several a stage, in this order. */
const boards: Readonly<Partial<Record<Stage, readonly ComponentType<BoardProps>[]>>> = {
  identify: [ContentsBoard],
  plan: [SetUp, FindBoard],
  prove: [FaultsBoard],
  recover: [RecoverBoard],
  evacuate: [EvacuateBoard],
  charge: [ChargeBoard],
  restore: [RecoverBoard, EvacuateBoard, FaultsBoard],
  compare: [FairBoard, CompareBoard, LoopsBoard],
  hazards: [HazardsBoard],
  claims: [ClaimsBoard],
  publish: [AnswerBoard, PublishBoard],
};

/** Stages at which instruments may send. */
const live: readonly Stage[] = ["prove", "run", "restore"];

interface Props extends BoardProps {
  /** Instruments send now: what they read comes first. */
  readonly streaming: boolean;
}

export const StageBoards = ({ trial, stage, streaming }: Props) => (
  <>
    {streaming && <LiveBoard trial={trial} stage={stage} />}
    {boards[stage.stage]?.map((Board, i) => (
      <Board key={i} trial={trial} stage={stage} />
    ))}
    {!streaming && live.includes(stage.stage) && <LiveBoard trial={trial} stage={stage} />}
  </>
);
