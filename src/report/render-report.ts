import { judgeReading, project, type StoredEvent, type TrialView } from "../trial/index.ts";
import { unitChoice, type UnitSystem } from "./choose-unit.ts";
import { renderPage } from "./page/page.tsx";

export interface ReportOptions {
  /** When the report is written, ISO 8601: a clock is the caller's business. */
  readonly generatedAt: string;
  readonly units: UnitSystem;
}

/**
 * A trial as one self-contained HTML page: no script, no request, every text escaped.
 *
 * @param events Any set of events of one trial; what cannot be used is listed in the page.
 */
export const renderReport = (events: readonly StoredEvent[], options: ReportOptions): string =>
  renderView(project(events), options, events.length);

/** The same from a projection that is already at hand. */
export const renderView = (view: TrialView, options: ReportOptions, events: number): string =>
  renderPage({
    view,
    units: unitChoice(view, options.units),
    judge: (reading) => judgeReading(view, reading),
    generatedAt: options.generatedAt,
    events,
  });
