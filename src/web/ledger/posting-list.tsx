import type { TrialView } from "../../trial/index.ts";
import { spokenInstant } from "../forms/instant.ts";
import { pathTo } from "../shell/route.ts";
import { PostingLine } from "../transfers/transfer-preview.tsx";

interface Props {
  readonly trial: string;
  readonly view: TrialView;
}

/** Every line of the ledger, with a way to the entry that posted it. */
export function PostingList({ trial, view }: Props) {
  const { postings } = view.ledger;
  if (postings.length === 0) {
    return <p class="empty">No transfer yet. Post the first one in Recover.</p>;
  }
  return (
    <ol class="rows">
      {postings.map((posting, i) => (
        <li key={`${posting.entry} ${i}`}>
          <a class="row" href={pathTo("trial", trial, "log", posting.entry)}>
            <span>
              <PostingLine posting={posting} view={view} />
            </span>
            <small>{spokenInstant(posting.when)}</small>
          </a>
        </li>
      ))}
    </ol>
  );
}
