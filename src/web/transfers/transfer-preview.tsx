import { shownIn } from "../../report/index.ts";
import {
  type Issue,
  lostAccount,
  parseEvent,
  type Posting,
  project,
  type StoredEvent,
  type TrialView,
} from "../../trial/index.ts";
import { makeEvent, memory } from "../shell/log-keeper.ts";

interface Props {
  readonly trial: string;
  readonly view: TrialView;
  /** The log without logger files: the ledger needs none, and the preview must keep up with typing. */
  readonly log: readonly StoredEvent[];
  readonly body: Readonly<Record<string, unknown>>;
  readonly issues: readonly Issue[];
  /** The entry that this form would correct: it must not count twice. */
  readonly replaces?: string | undefined;
}

/** What the transfer would post, before it is saved. */
export function TransferPreview(props: Props) {
  const { view } = props;
  const postings = props.issues.length === 0 ? postingsOf(props) : [];
  return (
    <div aria-live="polite">
      {postings.length > 0 && (
        <div class="preview">
          <h3>This would post</h3>
          <ul>
            {postings.map((posting, i) => (
              <li key={i}>
                <PostingLine posting={posting} view={view} />
              </li>
            ))}
          </ul>
        </div>
      )}
    </div>
  );
}

function postingsOf({ trial, log, body, replaces }: Props): readonly Posting[] {
  const parsed = parseEvent(makeEvent(trial, "transfer-posted", body));
  if (parsed.kind === "invalid") return [];
  const others = replaces === undefined ? log : log.filter(({ id }) => id !== replaces);
  const { ledger } = project([...others, parsed.event], memory);
  return ledger.postings.filter(({ entry }) => entry === parsed.event.id);
}

interface LineProps {
  readonly posting: Posting;
  readonly view: TrialView;
}

const legWords: Readonly<Record<Posting["leg"], string>> = {
  moved: "moved",
  purged: "left the hoses",
  disagreement: "the two weighings disagree",
  "found-empty": "found empty",
};

export function PostingLine({ posting, view }: LineProps) {
  const name = (account: string): string =>
    view.ledger.accounts.find(({ id }) => id === account)?.name ??
    (account === lostAccount ? "lost" : account);
  return (
    <>
      <strong class="figure">{shownIn("g").pair(posting.mass)}</strong>{" "}
      <span>
        {name(posting.from)} → {name(posting.to)}
      </span>{" "}
      <small class="quiet">
        {legWords[posting.leg]}
        {posting.scaleAssumed && "; no scale named, so the usual limit of shop scales is taken"}
      </small>
    </>
  );
}
