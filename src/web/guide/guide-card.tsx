import { useState } from "preact/hooks";
import { stageNames } from "../../report/index.ts";
import { makeEvent, record, takeIn, view } from "../shell/log-keeper.ts";
import { say } from "../shell/notice.ts";
import { prefer, preferences } from "../shell/preferences.ts";
import { go, pathTo } from "../shell/route.ts";
import { saveFile } from "../publish/save-file.ts";
import { eventsOfPart } from "./enter-part.ts";
import "./guide.css";
import { guideStep, type GuideStanding } from "./guide-step.ts";
import { type LessonEntry, lessonPart } from "./lesson.ts";
import { linesOf } from "./lines.ts";
import { type GuideStep, lookedItem, placeOf } from "./step.ts";

interface Props {
  readonly trial: string;
  readonly parts: readonly string[];
}

/** One card at a time above the screens of a practice trial: what to do now, why, and what to type. */
export function GuideCard({ trial, parts }: Props) {
  const standing = guideStep(view.value);
  const typing = isTyping(standing, parts);
  const leave = (): void => {
    prefer({ guided: { ...preferences.value.guided, [trial]: false } });
    say("The guide waits: “Learn with an invented van” on the first page goes on with it.");
  };
  return (
    <section class={typing ? "guide is-typing" : "guide"} aria-label="Guide">
      <Progress standing={standing} onLeave={leave} />
      {standing.last && !typing && <p class="guide-learned">{standing.last.learned}</p>}
      {standing.step ? (
        <Now key={standing.step.id} trial={trial} parts={parts} step={standing.step} />
      ) : (
        <Finished trial={trial} onLeave={leave} />
      )}
    </section>
  );
}

/** A form is open: what was said before it makes room for the fields. */
const isTyping = ({ step }: Pick<GuideStanding, "step">, parts: readonly string[]): boolean =>
  step !== undefined && (parts[0] === "add" || parts.length > 3) && step.at[0] !== "confirm";

/** At the field of one reading only that reading; elsewhere all of the step. */
function askedHere(
  entries: readonly LessonEntry[],
  [, , , act, what]: readonly string[],
): readonly LessonEntry[] {
  const here = entries.filter(({ body }) => act === "reading" && body["quantity"] === what);
  return here.length > 0 ? here : entries;
}

interface ProgressProps {
  readonly standing: GuideStanding;
  readonly onLeave: () => void;
}

function Progress({ standing: { step, number, of }, onLeave }: ProgressProps) {
  return (
    <div class="guide-head">
      <p class="eyebrow">
        Guide{step && ` · ${stageNames[step.stage]}`} ·{" "}
        <span class="figure">{step ? `step ${number + 1} of ${of}` : `all ${of} steps done`}</span>
      </p>
      <progress
        class="guide-progress"
        max={of}
        value={number}
        aria-label="Steps of the guide done"
      />
      <button type="button" class="plain" onClick={onLeave}>
        Leave the guide
      </button>
    </div>
  );
}

interface NowProps extends Props {
  readonly step: GuideStep;
}

function Now({ trial, parts, step }: NowProps) {
  const entries = lessonPart(step.id);
  const place = placeOf(step, view.value);
  const isThere = place.every((part, i) => parts[i] === part);
  return (
    <>
      <div aria-live="polite">
        <h2 class="guide-title">{step.title}</h2>
        {!isTyping({ step }, parts) && <p class="guide-why">{step.why}</p>}
      </div>
      <ToType entries={askedHere(entries, parts)} open={isThere} />
      <Acts {...{ trial, step, entries, place, isThere }} />
    </>
  );
}

/** Fewer than this stand open; a longer list folds, because it is rather entered than typed. */
const fewLines = 8;

interface ToTypeProps {
  readonly entries: readonly LessonEntry[];
  readonly open: boolean;
}

function ToType({ entries, open }: ToTypeProps) {
  const lines = entries.flatMap(linesOf);
  if (lines.length === 0) return null;
  const list = (
    <dl class="guide-lines">
      {lines.map(({ label, value }, i) => (
        <div key={i}>
          <dt>{label}</dt>
          <dd class="figure">{value}</dd>
        </div>
      ))}
    </dl>
  );
  if (lines.length < fewLines) return list;
  return (
    <details class="guide-fold" open={open}>
      <summary>What to type: {lines.length} fields</summary>
      {list}
    </details>
  );
}

interface ActsProps {
  readonly trial: string;
  readonly step: GuideStep;
  readonly entries: readonly LessonEntry[];
  readonly place: readonly string[];
  readonly isThere: boolean;
}

function Acts({ trial, step, entries, place, isThere }: ActsProps) {
  const [failure, setFailure] = useState<string>();
  const enter = async (): Promise<void> => {
    const make = makeEvent.bind(undefined, trial);
    setFailure(await takeIn(eventsOfPart(step.id, view.value, make)));
    go("trial", trial, ...stageOf(step));
  };
  const look = async (): Promise<void> => {
    const { stage } = step;
    await record(trial, "item-confirmed", { stage, item: lookedItem, confirmed: true });
  };
  const toConfirm = entries.length === 0;
  return (
    <>
      <div class="guide-acts">
        {!isThere && (
          <a class="button button-main" href={pathTo("trial", trial, ...place)}>
            {toConfirm ? "Go there" : "Type it yourself"}
          </a>
        )}
        {entries.length > 0 && (
          <button type="button" class="button" onClick={() => void enter()}>
            Enter it for me
          </button>
        )}
        {step.id.endsWith("-look") && isThere && (
          <button type="button" class="button button-main" onClick={() => void look()}>
            I have looked
          </button>
        )}
        {entries.filter(({ type }) => type === "trace-imported").map(SaveTrace)}
      </div>
      {failure !== undefined && (
        <p class="field-issue" role="alert">
          Nothing was entered. {failure}
        </p>
      )}
    </>
  );
}

/** The file itself, for a learner who wants to import it with their own hands. */
function SaveTrace({ body }: LessonEntry) {
  const name = String(body["fileName"]);
  return (
    <button
      type="button"
      class="button"
      key={name}
      onClick={() => {
        saveFile(name, String(body["content"]), "text/csv");
      }}
    >
      Save the file
    </button>
  );
}

/** The page of a step's stage, where what was entered is seen with its verdict. */
function stageOf(step: GuideStep): readonly string[] {
  const [page, stage = "plan", round = "-"] = placeOf(step, view.value);
  return page === "stage" ? ["stage", stage, round] : ["stage", "plan", "-"];
}

function Finished({ trial, onLeave }: { readonly trial: string; readonly onLeave: () => void }) {
  return (
    <>
      <h2 class="guide-title">You have walked a whole trial</h2>
      <p class="guide-why">
        Save the report on the Publish page, and open it in another browser: it carries the log that
        you wrote. For real work begin a new trial on the first page; nothing of this one goes with
        it.
      </p>
      <div class="guide-acts">
        <a class="button button-main" href={pathTo("trial", trial, "stage", "publish", "-")}>
          Go to Publish
        </a>
        <a class="button" href={pathTo()} onClick={onLeave}>
          All trials
        </a>
      </div>
    </>
  );
}
