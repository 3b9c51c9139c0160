import { project, type StoredEvent, type TrialView } from "../trial/index.ts";
import { unitChoice, type UnitSystem } from "./choose-unit.ts";
import { judgeInUnits } from "./judge-in-units.ts";
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
export function renderView(view: TrialView, options: ReportOptions, events: number): string {
  const units = unitChoice(view, options.units);
  const { generatedAt } = options;
  return renderPage({ view, units, judge: judgeInUnits(view, units), generatedAt, events });
}
