import { useMemo } from "preact/hooks";
import { identifyInput } from "../../calculations/index.ts";
import {
  contentsOf,
  type Identification,
  type RestingFindings,
  restingFindings,
  type Settled,
  type TrialView,
} from "../../trial/index.ts";
import { events, view } from "../shell/log-keeper.ts";
import type { Job } from "./batch.ts";
import { useAnswers } from "./use-answers.ts";
import { useFair } from "./use-fair.ts";

/** What rests on the comparison and the identification, as far as both are worked out. */
export interface SettledFindings extends RestingFindings {
  readonly settled: Settled;
  /** Still at it: what stands there may change. */
  readonly working: boolean;
}

interface Weighing {
  readonly product: string;
  readonly job: Job;
}

function weighings(seen: TrialView): Weighing[] {
  return seen.products.flatMap(({ id }) => {
    const evidence = contentsOf(seen, id);
    const measured = evidence.items.some((item) => item.evidence.kind !== "label");
    const input = measured ? identifyInput(evidence) : undefined;
    return input ? [{ product: id, job: { name: "identify", input } }] : [];
  });
}

/** Contents of the products, weighed off the page's thread. */
export function useIdentified(): {
  readonly identified: ReadonlyMap<string, Identification>;
  readonly working: boolean;
} {
  const seen = view.value;
  const asked = useMemo(() => weighings(seen), [seen]);
  const { answers, current, failed } = useAnswers(asked.map(({ job }) => job));
  const identified = useMemo(
    () =>
      new Map(
        asked.flatMap(({ product }, i) => {
          const answer = current ? answers[i] : undefined;
          // The calculation's own schema is tested to be what its result is.
          return answer?.kind === "answer"
            ? [[product, answer.result as Identification] as const]
            : [];
        }),
      ),
    [asked, answers, current],
  );
  return { identified, working: !current && !failed && asked.length > 0 };
}

/** Claims, hazards and answers of the open trial with all that can be settled. */
export function useSettled(): SettledFindings {
  const seen = view.value;
  const { state } = useFair(events.value);
  const { identified, working } = useIdentified();
  const fair = state.kind === "found" ? state.found : undefined;
  return useMemo(() => {
    const settled: Settled = { identified, ...(fair && { fair }) };
    const busy = working || state.kind === "working";
    return { ...restingFindings(seen, settled), settled, working: busy };
  }, [seen, identified, fair, working, state.kind]);
}
