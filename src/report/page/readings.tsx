import type { Verdict } from "../../trial/index.ts";
import { momentText, readingName } from "../names.ts";
import { bandLook } from "../pictures/band-look.ts";
import { BandScale } from "../pictures/band-scale.tsx";
import { DataTable } from "../pictures/picture.tsx";
import type { Shown } from "../shown.ts";
import { capital, instrumentName, type Page, stageName, vesselName } from "./context.ts";
import { typedText } from "./entry-sentence.ts";
import { type JudgedReading, judgedReadings } from "./judged.ts";
import { Section, type SectionEntry, Twice } from "./section.tsx";

/** Readings against their bands, then those that nothing judges. */
export function Readings({ page, id, title }: { page: Page } & SectionEntry) {
  const all = judgedReadings(page);
  const judged = all.filter(({ verdict }) => verdict?.band);
  const open = all.filter(({ verdict }) => verdict && !verdict.band);
  const plain = all.filter(({ verdict }) => !verdict);
  return (
    <Section
      id={id}
      title={title}
      lead={
        all.length === 0
          ? "No reading was taken."
          : "Each reading with the 95 % interval of its instrument, against the band in which it should fall."
      }
    >
      <ul class="devices">
        {judged.map((one) => (
          <Judged key={one.reading.id} {...one} page={page} />
        ))}
      </ul>
      <Undecided open={open} page={page} />
      <Others plain={plain} page={page} />
    </Section>
  );
}

const takenText = ({ reading }: JudgedReading, page: Page): string =>
  `${momentText(reading.when)}, ${stageName(page, reading.stage, reading.round)}`;

function Undecided({ open, page }: { open: readonly JudgedReading[]; page: Page }) {
  if (open.length === 0) return null;
  return (
    <>
      <h3>Undecided, for want of a band</h3>
      <DataTable
        caption="Readings that could be judged, and why they are not"
        head={["Reading", "Value", "Taken", "Undecided because"]}
        rows={open.map((one) => [
          readingName(one.reading.quantity, one.reading.form),
          readingText(one, page),
          takenText(one, page),
          `${capital(one.verdict?.word ?? "undecided")}. ${one.verdict?.sentence ?? ""}`,
        ])}
      />
    </>
  );
}

function Others({ plain, page }: { plain: readonly JudgedReading[]; page: Page }) {
  if (plain.length === 0) return null;
  return (
    <>
      <h3>Other readings</h3>
      <DataTable
        caption="Readings that serve other figures and have no band of their own"
        head={["Reading", "Value", "Taken", "Instrument"]}
        rows={plain.map((one) => [
          readingName(one.reading.quantity, one.reading.form),
          readingText(one, page),
          takenText(one, page),
          instrumentName(page, one.reading.instrument),
        ])}
      />
    </>
  );
}

const shownOf = ({ reading }: JudgedReading, { units }: Page): Shown =>
  units.quantity(reading.quantity, reading.typed.unit);

function readingText({ reading }: JudgedReading, page: Page): string {
  const shown = shownOf({ reading }, page);
  if (reading.u !== undefined && reading.u > 0) {
    return shown.pair({ value: reading.value, u: reading.u });
  }
  return shown.unit === reading.typed.unit ? typedText(reading.typed) : shown.text(reading.value);
}

function Judged({ reading, verdict, page }: JudgedReading & { page: Page }) {
  if (!verdict) return null;
  const shown = shownOf({ reading }, page);
  const { band } = verdict;
  return (
    <li>
      <Twice
        id={`reading-${reading.id}`}
        draw={(id, width) => (
          <BandScale
            id={id}
            width={width}
            compact
            {...bandLook(reading.quantity)}
            title={readingName(reading.quantity, reading.form)}
            shown={shown}
            reading={verdict.reading}
            verdict={verdict}
            {...(band && { band })}
          />
        )}
      />
      <p>{verdict.sentence}</p>
      <p class="quiet">{circumstances({ reading, verdict }, page)}</p>
      <Details verdict={verdict} />
    </li>
  );
}

/** When, where, by what and against what, in one line. */
const circumstances = ({ reading, verdict }: JudgedReading, page: Page): string =>
  [
    momentText(reading.when),
    stageName(page, reading.stage, reading.round),
    reading.vessel === undefined ? undefined : vesselName(page, reading.vessel),
    reading.place,
    instrumentName(page, reading.instrument),
    `typed as ${typedText(reading.typed)}`,
    verdict === undefined || verdict.basis === "" ? undefined : `band from: ${verdict.basis}`,
  ]
    .filter((part) => part !== undefined)
    .join(" · ");

function Details({ verdict }: { verdict: Verdict }) {
  if (verdict.details.length === 0) return null;
  return (
    <details class="numbers">
      <summary>What stands behind it</summary>
      <dl class="facts">
        {verdict.details.map(({ heading, text, source }, i) => (
          <div key={i}>
            <dt>{heading}</dt>
            <dd>
              {text} <span class="quiet">{source}</span>
            </dd>
          </div>
        ))}
      </dl>
    </details>
  );
}
