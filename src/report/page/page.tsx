import type { ComponentType } from "preact";
import { render } from "preact-render-to-string";
import { Cautions, Recompute, Sources } from "./close.tsx";
import { CompareAsMeasured, Drift } from "./compare.tsx";
import { Contents as WhatIsInside } from "./contents.tsx";
import type { Page } from "./context.ts";
import { Claims } from "./claims.tsx";
import { Diagnoses } from "./diagnosis.tsx";
import { Done } from "./done.tsx";
import { InEqualConditions } from "./fair.tsx";
import { Answer, Contents, Head } from "./head.tsx";
import { Hazards } from "./hazards.tsx";
import { Loops } from "./loops.tsx";
import { LedgerPart } from "./ledger.tsx";
import { reportStyle } from "./page-style.ts";
import { Readings } from "./readings.tsx";
import { Missing, Record } from "./record.tsx";
import { RecoveryAndCharge } from "./recovery-and-charge.tsx";
import { Runs } from "./runs.tsx";
import type { SectionEntry } from "./section.tsx";
import { SetUp } from "./set-up.tsx";

type Part = SectionEntry & { readonly part: ComponentType<{ page: Page } & SectionEntry> };

/** The order in which a doubter asks. */
const parts: readonly Part[] = [
  { id: "answer", title: "What can be said now", part: Answer },
  { id: "equal", title: "Cooling, in equal conditions", part: InEqualConditions },
  { id: "compared", title: "Cooling, as measured", part: CompareAsMeasured },
  { id: "drift", title: "Drift of the vehicle itself", part: Drift },
  { id: "contents", title: "What is in the cans", part: WhatIsInside },
  { id: "claims", title: "What the labels claim", part: Claims },
  { id: "hazards", title: "If it leaked into the cabin", part: Hazards },
  { id: "loops", title: "Pressure and enthalpy", part: Loops },
  { id: "ledger", title: "Where every gram is", part: LedgerPart },
  { id: "recovery", title: "Recovery and charge, round by round", part: RecoveryAndCharge },
  { id: "health", title: "Is something wrong with the vehicle", part: Diagnoses },
  { id: "readings", title: "Readings and their verdicts", part: Readings },
  { id: "runs", title: "Runs and traces", part: Runs },
  { id: "done", title: "What was done", part: Done },
  { id: "set-up", title: "Vehicle, products, instruments", part: SetUp },
  { id: "missing", title: "What is missing", part: Missing },
  { id: "record", title: "Corrections and data kept aside", part: Record },
  { id: "cautions", title: "Cautions", part: Cautions },
  { id: "sources", title: "Sources", part: Sources },
  { id: "recompute", title: "How to recompute this", part: Recompute },
];

/** Nothing may be fetched and nothing may run: what is read is what was written. */
const POLICY = "default-src 'none'; style-src 'unsafe-inline'; base-uri 'none'; form-action 'none'";

const Document = ({ page }: { page: Page }) => (
  <html lang="en">
    <head>
      <meta charset="utf-8" />
      <meta http-equiv="Content-Security-Policy" content={POLICY} />
      <meta name="viewport" content="width=device-width, initial-scale=1" />
      <meta name="color-scheme" content="light dark" />
      <title>{page.view.opened?.title ?? "Trial report"}</title>
      {/* The house's own style sheets, read from files: no text of a trial is among them. */}
      <style dangerouslySetInnerHTML={{ __html: reportStyle }} />
    </head>
    <body>
      <div class="page">
        <Head page={page} />
        <Contents sections={parts} />
        <main>
          {parts.map(({ id, title, part: PartOf }) => (
            <PartOf key={id} id={id} title={title} page={page} />
          ))}
        </main>
      </div>
    </body>
  </html>
);

/** The whole page as text. Everything from the trial passes through the renderer, which escapes it. */
export const renderPage = (page: Page): string =>
  `<!doctype html>\n${render(<Document page={page} />)}\n`;
