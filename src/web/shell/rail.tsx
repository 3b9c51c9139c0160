import { StageList } from "../walk/stage-list.tsx";
import { pathTo } from "./route.ts";

interface Props {
  readonly trial: string;
  readonly parts: readonly string[];
}

/** Desk navigation: every stage at hand, then the views of the whole log and of any fluid. */
export function Rail({ trial, parts }: Props) {
  const current = (page: string) => (parts[0] === page ? "page" : undefined);
  return (
    <nav class="rail" aria-label="Stages and views">
      <StageList trial={trial} parts={parts} />
      <ul class="rail-views">
        <li>
          <a
            class="stage-link"
            href={pathTo("trial", trial, "grams")}
            aria-current={current("grams")}
          >
            Where every gram is
          </a>
        </li>
        <li>
          <a class="stage-link" href={pathTo("trial", trial, "log")} aria-current={current("log")}>
            The log
          </a>
        </li>
        <li>
          <a
            class="stage-link"
            href={pathTo("trial", trial, "fluids")}
            aria-current={current("fluids")}
          >
            Fluids and blends
          </a>
        </li>
      </ul>
    </nav>
  );
}
