import type { ClaimVerdict } from "../../trial/index.ts";
import { type VerdictKind, VerdictWord } from "./verdict-mark.tsx";

/** Circle, triangle, hollow diamond: the shapes of bands serve claims too. */
const kinds: Readonly<Record<ClaimVerdict["verdict"], VerdictKind>> = {
  supported: "within",
  contradicted: "higher",
  undecided: "undecided",
};

/** Word and shape of a claim's verdict. */
export const ClaimVerdictWord = ({ verdict }: { readonly verdict: ClaimVerdict["verdict"] }) => (
  <VerdictWord kind={kinds[verdict]} word={verdict} />
);
