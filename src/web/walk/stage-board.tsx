import type { ComponentType } from "preact";
import type { Stage, StageView } from "../../trial/index.ts";
import { FindBoard } from "../plan/find-board.tsx";
import { ChargeBoard } from "../charging/charge-board.tsx";
import { ClaimsBoard } from "../claims/claims-board.tsx";
import { HazardsBoard } from "../hazards/hazards-board.tsx";
import { FaultsBoard } from "../faults/faults-board.tsx";
import { EvacuateBoard } from "../evacuate/evacuate-board.tsx";
import { SetUp } from "../plan/set-up.tsx";
import { CompareBoard } from "../publish/compare-board.tsx";
import { FairBoard } from "../publish/fair-board.tsx";
import { PublishBoard } from "../publish/publish-board.tsx";
import { RecoverBoard } from "../recovery/recover-board.tsx";

export interface BoardProps {
  readonly trial: string;
  readonly stage: StageView;
}

/** What a stage computes, below what it asks for: one board or several a stage, in this order. */
const boards: Readonly<Partial<Record<Stage, readonly ComponentType<BoardProps>[]>>> = {
  plan: [SetUp, FindBoard],
  prove: [FaultsBoard],
  recover: [RecoverBoard],
  evacuate: [EvacuateBoard],
  charge: [ChargeBoard],
  restore: [RecoverBoard, EvacuateBoard, FaultsBoard],
  compare: [FairBoard, CompareBoard],
  hazards: [HazardsBoard],
  claims: [ClaimsBoard],
  publish: [PublishBoard],
};

export const StageBoards = ({ trial, stage }: BoardProps) => (
  <>
    {boards[stage.stage]?.map((Board, i) => (
      <Board key={i} trial={trial} stage={stage} />
    ))}
  </>
);
