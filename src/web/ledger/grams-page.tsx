import { useId } from "preact/hooks";
import { FoldedTable, MassColumns, massTable, unitChoice } from "../../report/index.ts";
import type { Ledger } from "../../trial/index.ts";
import { spokenInstant } from "../forms/instant.ts";
import { Fit } from "../look/fit.tsx";
import { Fold } from "../look/fold.tsx";
import { view } from "../shell/log-keeper.ts";
import { goInstead, pathTo } from "../shell/route.ts";
import { AccountList } from "./account-list.tsx";
import { ClosureList } from "./closure-list.tsx";
import { PostingList } from "./posting-list.tsx";

interface Props {
  readonly trial: string;
  /** Entry after which to look; the end of the log without one. */
  readonly step: string | undefined;
}

/** Where every gram is, now or after any entry. */
export function GramsPage({ trial, step }: Props) {
  const seen = view.value;
  const { ledger } = seen;
  const id = `mass${useId()}`;
  const at = ledger.steps.findIndex(({ entry }) => entry === step);
  const index = at < 0 ? ledger.steps.length - 1 : at;
  const shown = unitChoice(seen, "as-typed").thing("small-mass");
  const moment = ledger.steps[index];
  if (ledger.accounts.length <= 3 && ledger.postings.length === 0) return <Empty trial={trial} />;
  return (
    <main class="wide" id="main">
      <h1 tabIndex={-1}>Where every gram is</h1>
      <p class="lead">{sentence(ledger)}</p>
      <div class="grams">
        <section class="sheet grams-picture">
          <Stepper ledger={ledger} index={index} trial={trial} />
          <Fit>
            {(width) => {
              const picture = {
                id,
                title: moment ? `After ${spokenInstant(moment.when)}` : "At the start",
                ledger,
                // The last step is the present, which also knows what each mass is.
                ...(moment && index < ledger.steps.length - 1 && { step: moment.entry }),
                shown,
                width,
              };
              return (
                <>
                  <MassColumns {...picture} />
                  <FoldedTable table={massTable(picture)} />
                </>
              );
            }}
          </Fit>
        </section>
        <section class="sheet">
          <h2>Does it close?</h2>
          <ClosureList ledger={ledger} />
        </section>
        <Fold level={2} title="Accounts" said={`${ledger.accounts.length} accounts`}>
          <AccountList ledger={ledger} shown={shown} />
        </Fold>
        <Fold level={2} title="Postings" said={`${ledger.postings.length} postings`}>
          <PostingList trial={trial} view={seen} />
        </Fold>
      </div>
    </main>
  );
}

function sentence({ closures, conservation }: Ledger): string {
  const open = closures.filter(({ grade }) => grade === "does-not-close").length;
  const doubtful = closures.filter(({ grade }) => grade === "doubtful").length;
  if (!conservation.holds) return "The accounts do not add up to what was there at the start.";
  if (closures.length === 0)
    return "Nothing has been weighed twice yet, so nothing can be checked against the scale.";
  const rest =
    open === 0 ? "none fails to close" : `${open} ${open === 1 ? "does" : "do"} not close`;
  return `The accounts add up. Of ${closures.length} places where two weighings meet, ${rest}${doubtful > 0 ? `, ${doubtful} doubtful` : ""}.`;
}

interface StepperProps {
  readonly trial: string;
  readonly ledger: Ledger;
  readonly index: number;
}

/** Steps through the log, one posting at a time. */
function Stepper({ trial, ledger, index }: StepperProps) {
  const to = (i: number): void => {
    const entry = ledger.steps[i]?.entry;
    if (entry !== undefined) goInstead("trial", trial, "grams", entry);
  };
  const last = ledger.steps.length - 1;
  return (
    <div class="stepper">
      <button
        type="button"
        class="button"
        aria-disabled={index <= 0}
        onClick={() => {
          to(index - 1);
        }}
      >
        Earlier
      </button>
      <label class="stepper-range">
        <span class="figure">
          Step {index + 1} of {last + 1}
        </span>
        <input
          type="range"
          min={0}
          max={last}
          value={index}
          aria-label="Step of the ledger"
          onInput={(event) => {
            to(Number(event.currentTarget.value));
          }}
        />
      </label>
      <button
        type="button"
        class="button"
        aria-disabled={index >= last}
        onClick={() => {
          to(index + 1);
        }}
      >
        Later
      </button>
    </div>
  );
}

function Empty({ trial }: { readonly trial: string }) {
  return (
    <main class="wide" id="main">
      <h1 tabIndex={-1}>Where every gram is</h1>
      <p class="empty">
        No vessel is listed yet. List the recovery cylinder and the cans in Plan; then every
        transfer moves mass between them here.
      </p>
      <a class="button button-main" href={pathTo("trial", trial, "add", "vessel")}>
        List a vessel
      </a>
    </main>
  );
}
