import { exportTrial, logSeal, project, type StoredEvent, type TrialView } from "../trial/index.ts";
import { unitChoice, type UnitSystem } from "./choose-unit.ts";
import { figuresOf } from "./figures.ts";
import { judgeInUnits } from "./judge-in-units.ts";
import { renderPage } from "./page/page.tsx";
import { type CarriedData, sealPage } from "./seal/sealed-page.ts";
import type { SigningKey } from "./seal/signature.ts";
import { type Recompute, type Verification, verifyReport } from "./seal/verify-report.ts";

export interface ViewOptions {
  /** When the report is written, ISO 8601: a clock is the caller's business. */
  readonly generatedAt: string;
  readonly units: UnitSystem;
}

export interface ReportOptions extends ViewOptions {
  /** Version of the program: the same one must give the same page again. */
  readonly program: string;
  /** Signs the page, when there is one. */
  readonly key?: SigningKey;
}

/**
 * A trial as one self-contained HTML page: no script that runs, no request, every text escaped. It carries the log
 * and its figures, sealed, so that `checkReport` can work everything out again from the file alone.
 *
 * @param events Any set of events of one trial; what cannot be used is listed in the page. A log that is no export
 *               (empty, or of two trials) gives a page without a seal.
 */
export function renderReport(events: readonly StoredEvent[], options: ReportOptions): string {
  const view = project(events);
  const { generatedAt, units, program, key } = options;
  if (new Set(events.map(({ trial }) => trial)).size !== 1) {
    return renderView(view, options, events.length);
  }
  const log = exportTrial(events);
  const data: CarriedData = {
    format: "coldproof-report",
    version: 1,
    program,
    generatedAt,
    units,
    log,
    seal: logSeal(events),
    figures: figuresOf(view, dayOf(generatedAt)),
  };
  return sealPage(renderView(view, options, log.events.length), data, key);
}

/** The page alone, from a projection that is already at hand: to look at, not to publish. */
export function renderView(view: TrialView, options: ViewOptions, events: number): string {
  const units = unitChoice(view, options.units);
  const { generatedAt } = options;
  return renderPage({ view, units, judge: judgeInUnits(view, units), generatedAt, events });
}

const dayOf = (instant: string): string => instant.slice(0, 10);

/**
 * Checks a report from its text alone, with this version's own work. Never throws; takes some seconds for a long trial.
 *
 * @param program  Version of this program.
 */
export const checkReport = (html: string, program: string): Verification =>
  verifyReport(html, worker(program));

function worker(program: string): Recompute {
  const views = new Map<readonly StoredEvent[], TrialView>();
  // One projection for figures and page: both then share what takes long.
  const viewOf = (events: readonly StoredEvent[]): TrialView => {
    const view = views.get(events) ?? project(events);
    views.set(events, view);
    return view;
  };
  return {
    program,
    figures: (events, { generatedAt }) => figuresOf(viewOf(events), dayOf(generatedAt)),
    page: (events, { generatedAt, units }) =>
      renderView(viewOf(events), { generatedAt, units: unitsOf(units) }, events.length),
  };
}

/** A forged file may name anything; the page then differs. */
const unitsOf = (text: string): UnitSystem => (text === "si" || text === "us" ? text : "as-typed");
