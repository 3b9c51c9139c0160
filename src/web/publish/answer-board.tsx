import { type AnswerPlace, Answers, unitChoice } from "../../report/index.ts";
import { useSettled } from "../engine/use-settled.ts";
import { isWide } from "../look/is-wide.ts";
import { view } from "../shell/log-keeper.ts";
import { preferences } from "../shell/preferences.ts";
import { pathTo } from "../shell/route.ts";

/** The four questions with their answers, as the report will give them. */
export function AnswerBoard({ trial }: { readonly trial: string }) {
  const seen = view.value;
  const { answers, working } = useSettled();
  const units = unitChoice(seen, preferences.value.system);
  return (
    <section class="sheet" aria-labelledby="the-answer" aria-busy={working}>
      <h2 id="the-answer">The answer</h2>
      {working && (
        <p class="quiet" role="status">
          Still working out the comparison in equal conditions and what is in the cans. Until then
          they count as undecided.
        </p>
      )}
      {answers.length === 0 ? (
        <p class="empty">Describe the vehicle and list a product in Plan first.</p>
      ) : (
        <Answers
          answers={answers}
          label={seen.vehicle?.labelRefrigerant ?? "the label refrigerant"}
          units={units}
          folded={!isWide()}
          onJump={(id) => {
            const one = document.getElementById(id);
            one?.closest("details.answers-of")?.setAttribute("open", "");
            one?.scrollIntoView({ block: "start" });
          }}
          href={(place, about) => pathTo("trial", trial, ...stepsTo(place, about))}
        />
      )}
    </section>
  );
}

/** Where the app keeps what a reason rests on. */
function stepsTo(place: AnswerPlace, about: string): readonly string[] {
  switch (place) {
    case "ledger":
      return ["grams"];
    case "contents":
      return ["stage", "identify", about];
    case "claims":
      return ["stage", "claims", "-"];
    case "hazards":
      return ["stage", "hazards", "-"];
    case "equal":
    case "drift":
      return ["stage", "compare", "-"];
  }
}
