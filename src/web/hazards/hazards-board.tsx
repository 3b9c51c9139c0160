import { useEffect } from "preact/hooks";
import { unitChoice } from "../../report/index.ts";
import { type HazardFinding, hazardFindings, treatmentSentence } from "../../trial/index.ts";
import { useAnswers } from "../engine/use-answers.ts";
import { useIdentified } from "../engine/use-settled.ts";
import type { FieldDraft } from "../fields/field-draft.ts";
import { FieldFrame } from "../fields/field-frame.tsx";
import { Pick } from "../fields/pick.tsx";
import { CannotCompute, NoAnswer } from "../fluids/said.tsx";
import { view } from "../shell/log-keeper.ts";
import { preferences } from "../shell/preferences.ts";
import { CautionMark } from "../walk/caution-mark.tsx";
import { leakBoardCase, leakDraft, subjectOf } from "./leak-case.ts";
import { LeakFields } from "./leak-fields.tsx";
import { leakOf } from "./leak-result.ts";
import { LeakFinding, LeakShows } from "./leak-shows.tsx";

/** What a leak of each product would do in this cabin and bay. Nothing has to leak to answer that. */
export function HazardsBoard({ trial }: { readonly trial: string }) {
  const draft = leakDraft(trial);
  useEffect(() => void draft.start(), [trial]);
  const { identified, working } = useIdentified();
  // The same finding as in the report.
  const findings = hazardFindings(view.value, identified);
  const subject = subjectOf(draft, findings);
  if (!subject) {
    return (
      <p class="empty">
        List a product or describe the vehicle in Plan first: then this page works out what a leak
        would do.
      </p>
    );
  }
  return <Leak {...{ draft, findings, subject, working }} />;
}

/** Why the charge is taken as something else than its label says. */
function Treated({ subject: { treatment } }: Pick<LeakProps, "subject">) {
  const sentence = treatment && treatmentSentence(treatment);
  return sentence === undefined ? null : (
    <ul class="caution-lines">
      <li>
        <CautionMark severity="danger" />
        <span>{sentence}</span>
      </li>
    </ul>
  );
}

interface LeakProps {
  readonly draft: FieldDraft;
  readonly findings: readonly HazardFinding[];
  readonly subject: HazardFinding;
  /** What is in the cans is still being weighed. */
  readonly working: boolean;
}

function Leak({ draft, findings, subject, working }: LeakProps) {
  const seen = view.value;
  const units = unitChoice(seen, preferences.value.system);
  const asked = leakBoardCase(draft, seen, subject);
  const job = (blower: "on" | "off") => ({
    name: "cabin-leak",
    input: { ...asked.input, blower },
  });
  const { answers, current, failed } = useAnswers(asked.input ? [job("off"), job("on")] : []);
  const [answer] = answers;
  const [layer, stirred] = [leakOf(answers[0]), leakOf(answers[1])];
  return (
    <section class="sheet" aria-labelledby="hazards-leak-head">
      <h2 id="hazards-leak-head">If it leaked</h2>
      <p class="quiet">
        Worked out from mass, volume and published limits. Nobody has to charge or release anything
        to answer this, and releasing it may be prohibited.
      </p>
      <FieldFrame id="hazards-subject" label="Which charge">
        <Pick
          id="hazards-subject"
          value={subject.product}
          empty="Choose a charge"
          options={findings.map(({ product, name }) => ({
            value: product,
            label: product === "label" ? `${name}, the label refrigerant` : name,
          }))}
          onChange={(product) => {
            draft.change({ subject: product });
          }}
        />
      </FieldFrame>
      <Treated subject={subject} />
      {working && (
        <p class="quiet" role="status">
          Weighing what is in the cans: what a product is taken as may still change. <progress />
        </p>
      )}
      {current && asked.input && layer && stirred && (
        // Never the last answer beside another charge: one burns where the other does not.
        <LeakFinding {...{ asked, layer, stirred, units }} />
      )}
      <h3>What is assumed</h3>
      <LeakFields {...{ draft, asked, answer }} />
      <CannotCompute failed={failed} />
      {asked.input === undefined && (
        <p class="empty">Type the mass that escapes and the free air first.</p>
      )}
      <NoAnswer answer={answer} />
      {asked.input && layer && stirred && (
        <LeakShows {...{ asked, layer, stirred, answers, current, units }} />
      )}
    </section>
  );
}
