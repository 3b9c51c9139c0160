import { useEffect, useState } from "preact/hooks";
import { startJudging } from "../readings/judging.ts";
import { StagePage } from "../walk/stage-page.tsx";
import { StagesPage } from "../walk/stages-page.tsx";
import { formStands } from "./first-look.ts";
import { openTrial, openTrialId, view } from "./log-keeper.ts";
import { prefer, preferences } from "./preferences.ts";
import { pathTo } from "./route.ts";
import { BottomNav } from "./bottom-nav.tsx";
import { Rail } from "./rail.tsx";
import { TopBar } from "./top-bar.tsx";
import { later } from "./later.tsx";

const TrialFluids = later(async () => (await import("../fluids/trial-fluids.tsx")).TrialFluids);
const TrialVehicle = later(async () => (await import("../vehicle/trial-vehicle.tsx")).TrialVehicle);
const GramsPage = later(async () => (await import("../ledger/grams-page.tsx")).GramsPage);
const LogPage = later(async () => (await import("../log/log-page.tsx")).LogPage);
const AddPage = later(async () => (await import("../plan/add-page.tsx")).AddPage);
const GuideCard = later(async () => (await import("../guide/guide-card.tsx")).GuideCard);
const CorrectPage = later(async () => (await import("../log/correct-page.tsx")).CorrectPage);

interface Props {
  readonly trial: string;
  readonly parts: readonly string[];
}

/** One trial: its walk, its grams, its log. Waits until the log is read from the device. */
export function TrialPage({ trial, parts }: Props) {
  const [failure, setFailure] = useState<string>();
  useEffect(() => {
    openTrial(trial).catch((error: unknown) => {
      setFailure(error instanceof Error ? error.message : "no reason was given");
    });
  }, [trial]);
  useEffect(() => {
    const idle = setTimeout(() => void startJudging(), 1500);
    return () => {
      clearTimeout(idle);
    };
  }, []);
  const isOpen = openTrialId.value === trial;
  useEffect(() => {
    if (isOpen) formStands();
  }, [isOpen]);
  const where = parts.join("/");
  useEffect(() => {
    if (parts[0] !== "stage") return;
    prefer({ places: { ...preferences.value.places, [trial]: parts } });
  }, [trial, where]);

  if (failure !== undefined) return <Unreadable reason={failure} />;
  if (!isOpen) return <p class="page quiet">Reading the log on this device…</p>;
  const { opened } = view.value;
  if (!opened && view.value.entries.length === 0) return <NotHere />;
  return (
    <>
      <TopBar title={opened?.title ?? "Trial"} demonstration={opened?.demonstration ?? false} />
      <div class="trial">
        <Rail trial={trial} parts={parts} />
        {preferences.value.guided[trial] === true && <GuideCard trial={trial} parts={parts} />}
        <Inside trial={trial} parts={parts} />
      </div>
      <BottomNav trial={trial} parts={parts} />
    </>
  );
}

function Inside({ trial, parts }: Props) {
  const [page, first, second, ...rest] = parts;
  switch (page) {
    case "grams":
      return <GramsPage trial={trial} step={first} />;
    case "fluids":
      return <TrialFluids />;
    case "vehicle":
      return <TrialVehicle key={trial} trial={trial} />;
    case "log":
      return <LogPage trial={trial} entry={first} />;
    case "stages":
      return <StagesPage trial={trial} />;
    case "add":
      return <AddPage key={first} trial={trial} kind={first ?? ""} />;
    case "correct":
      return <CorrectPage key={first} trial={trial} entry={first ?? ""} />;
    case undefined:
    default:
      return (
        <StagePage
          key={`${first ?? ""} ${second ?? ""}`}
          trial={trial}
          stage={first ?? "plan"}
          round={second ?? "-"}
          step={rest}
        />
      );
  }
}

function NotHere() {
  return (
    <>
      <TopBar title="Trial" />
      <main class="page narrow">
        <h1 tabIndex={-1}>This trial is not on this device</h1>
        <p>
          If it was made elsewhere, it appears as soon as the server answers, or when its file is
          imported.
        </p>
        <a class="button" href={pathTo()}>
          All trials
        </a>
      </main>
    </>
  );
}

function Unreadable({ reason }: { readonly reason: string }) {
  return (
    <main class="page narrow">
      <h1 tabIndex={-1}>The log cannot be read</h1>
      <p>
        Load the page again. If it stays, the trial is still on the server. The browser says:{" "}
        {reason}
      </p>
    </main>
  );
}
