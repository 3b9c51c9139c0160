import { momentText, readingName } from "../names.ts";
import { BandScale } from "../pictures/band-scale.tsx";
import { DataTable } from "../pictures/picture.tsx";
import type { Shown } from "../shown.ts";
import { instrumentName, type Page, stageName, vesselName } from "./context.ts";
import { typedText } from "./entry-sentence.ts";
import { type JudgedReading, judgedReadings } from "./judged.ts";
import { Section, type SectionEntry, Twice } from "./section.tsx";

/** Readings against their bands, then those that nothing judges. */
export function Readings({ page, id, title }: { page: Page } & SectionEntry) {
  const all = judgedReadings(page);
  const judged = all.filter(({ verdict }) => verdict);
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
      {plain.length > 0 && (
        <>
          <h3>Other readings</h3>
          <DataTable
            caption="Readings that serve other figures and have no band of their own"
            head={["Reading", "Value", "Taken", "Instrument"]}
            rows={plain.map(({ reading }) => [
              readingName(reading.quantity, reading.form),
              readingText({ reading }, page),
              `${momentText(reading.when)}, ${stageName(page, reading.stage, reading.round)}`,
              instrumentName(page, reading.instrument),
            ])}
          />
        </>
      )}
    </Section>
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

/** Spread of band and reading, above which a linear scale would press one of them to a line. */
const DECADES = 30;

function Judged({ reading, verdict, page }: JudgedReading & { page: Page }) {
  if (!verdict) return null;
  const shown = shownOf({ reading }, page);
  const { band } = verdict;
  const ends = [verdict.reading.value, ...(band ? [band.from, band.to] : [])];
  const least = Math.min(...ends);
  const log = reading.quantity === "vacuum" && least > 0 && Math.max(...ends) / least > DECADES;
  return (
    <li>
      <Twice
        id={`reading-${reading.id}`}
        draw={(id, width) => (
          <BandScale
            id={id}
            width={width}
            compact
            log={log}
            title={readingName(reading.quantity, reading.form)}
            shown={shown}
            reading={verdict.reading}
            verdict={verdict}
            {...(band && { band })}
          />
        )}
      />
      <p>{verdict.sentence}</p>
      <p class="quiet">
        {[
          momentText(reading.when),
          stageName(page, reading.stage, reading.round),
          reading.vessel === undefined ? undefined : vesselName(page, reading.vessel),
          reading.place,
          instrumentName(page, reading.instrument),
          `typed as ${typedText(reading.typed)}`,
          `judged by ${verdict.basis}`,
        ]
          .filter((part) => part !== undefined)
          .join(" · ")}
      </p>
      {verdict.details.length > 0 && (
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
      )}
    </li>
  );
}
