import { useSignalEffect } from "@preact/signals";
import { useEffect, useRef } from "preact/hooks";
import { CombinePage } from "../combine/combine-page.tsx";
import { Home } from "../home/home.tsx";
import { NewTrial } from "../home/new-trial.tsx";
import { TrialPage } from "./trial-page.tsx";
import { access } from "./access.ts";
import { superseded } from "./log-keeper.ts";
import { notice } from "./notice.ts";
import { takeUpdate, updateWaiting } from "./offline.ts";
import { hash, pathTo, place } from "./route.ts";
import { later } from "./later.tsx";
import { openServersLog, otherWorkspace } from "./synchronising.ts";

const FluidsPage = later(async () => (await import("../fluids/fluids-page.tsx")).FluidsPage);
const VehiclePage = later(async () => (await import("../vehicle/vehicle-page.tsx")).VehiclePage);
const DevicesPage = later(async () => (await import("../devices/devices-page.tsx")).DevicesPage);
const PairPage = later(async () => (await import("../devices/pair-page.tsx")).PairPage);
const LearnPage = later(async () => (await import("../guide/learn-page.tsx")).LearnPage);
const Settings = later(async () => (await import("./settings.tsx")).Settings);

/** Picks the page for the place, and says what concerns the whole app. */
export function App() {
  const [page, trial, ...rest] = place.value;
  useFocusOnArrival();
  return (
    <>
      <a
        class="skip"
        href="#main"
        onClick={(event) => {
          event.preventDefault();
          document.querySelector<HTMLElement>("h1")?.focus();
        }}
      >
        To the content
      </a>
      {superseded.value && (
        <p class="app-message" role="alert">
          A newer Coldproof runs in another window. Load this page again to go on here.
        </p>
      )}
      {updateWaiting.value && (
        <p class="app-message">
          A newer Coldproof is ready.{" "}
          <button type="button" class="plain" onClick={takeUpdate}>
            Load it now
          </button>
        </p>
      )}
      {otherWorkspace.value !== undefined && (
        <p class="app-message">
          The server serves another workspace than the one whose log is open. Nothing is exchanged;
          entries wait on this device.{" "}
          <button type="button" class="plain" onClick={() => void openServersLog()}>
            Open the server’s log
          </button>
        </p>
      )}
      {access.value.kind === "no-key" && page !== "pair" && (
        <p class="app-message">
          The server does not know this device. You can read what is here and go on writing; entries
          wait on this device.{" "}
          <a class="plain" href={pathTo("pair")}>
            Pair it
          </a>
        </p>
      )}
      {page === "trial" && trial !== undefined ? (
        <TrialPage key={trial} trial={trial} parts={rest} />
      ) : page === "new" ? (
        <NewTrial />
      ) : page === "learn" ? (
        <LearnPage />
      ) : page === "fluids" ? (
        <FluidsPage />
      ) : page === "vehicle" ? (
        <VehiclePage />
      ) : page === "devices" ? (
        <DevicesPage />
      ) : page === "pair" ? (
        <PairPage key={trial} code={trial ?? ""} />
      ) : page === "combine" ? (
        <CombinePage />
      ) : page === "settings" ? (
        <Settings />
      ) : (
        <Home />
      )}
      <div class="notice" role="status" aria-live="polite">
        {notice.value !== undefined && <p>{notice.value}</p>}
      </div>
    </>
  );
}

/** After a change of place: the new page from its top, its heading read out and first in tab order. */
function useFocusOnArrival(): void {
  const first = useRef(true);
  const was = useRef(hash.value);
  useSignalEffect(() => {
    const now = hash.value;
    if (first.current || now === was.current) return;
    was.current = now;
    const focused = document.activeElement;
    requestAnimationFrame(() => {
      // A hand that was quicker than the drawing is already somewhere on the new page: its next key belongs there.
      const active = document.activeElement;
      if (active !== focused && active !== document.body) return;
      scrollTo(0, 0);
      const target =
        document.querySelector<HTMLElement>("[data-arrive]") ??
        document.querySelector<HTMLElement>("h1");
      target?.focus({ preventScroll: true });
    });
  });
  useEffect(() => {
    first.current = false;
  }, []);
}
