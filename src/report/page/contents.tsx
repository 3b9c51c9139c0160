import { type ContentsEvidence, contentsOf } from "../../trial/index.ts";
import {
  blendsSpelled,
  contentsFinding,
  evidenceWords,
  familyShares,
  overallParts,
  PARTS_TITLE,
  runsWords,
} from "../contents-words.ts";
import { FamilyBars, familyTable, PartIntervals, partTable } from "../pictures/contents-chart.tsx";
import { DataTable, FoldedTable } from "../pictures/picture.tsx";
import { VerdictWord } from "../pictures/verdict-mark.tsx";
import { type Page, productName } from "./context.ts";
import { isMeasured } from "../weigh-contents.ts";
import { Section, type SectionEntry, Twice } from "./section.tsx";
import { workedOut } from "./worked-out.ts";

const verdicts = {
  named: { kind: "within", word: "identified" },
  undecided: { kind: "undecided", word: "undecided" },
  "none-explains": { kind: "undecided", word: "nothing explains it" },
} as const;

/** What each product is, by the readings and not by its label. */
export const Contents = ({ page, id, title }: { page: Page } & SectionEntry) => {
  const gathered = page.view.products.map((product) => contentsOf(page.view, product.id));
  const some = gathered.some(isMeasured);
  return (
    <Section
      id={id}
      title={title}
      lead={
        some
          ? "Probabilities of what may be inside, from the readings at rest, what was weighed, what testers said and, weakly, runs of the vehicle. The label counts as a prior only."
          : "Nothing was measured that says what the products are: no pressure at rest with its temperature, no mass with volume, no tester, no run on a weighed charge."
      }
    >
      {gathered.filter(isMeasured).map((evidence) => (
        <OfProduct key={evidence.product} evidence={evidence} page={page} />
      ))}
    </Section>
  );
};

function OfProduct({ evidence, page }: { evidence: ContentsEvidence; page: Page }) {
  const result = workedOut(page.view).identified.get(evidence.product);
  const name = productName(page, evidence.product);
  if (!result) {
    return (
      <p>
        <strong>{name}.</strong> The readings lie outside of what can be weighed here.
      </p>
    );
  }
  const families = familyShares(result);
  const shares = overallParts(result);
  const bars = { title: contentsFinding(result), families };
  const parts = { title: PARTS_TITLE, parts: shares };
  const drawn = `contents-${evidence.product}`;
  const spelled = blendsSpelled(result);
  return (
    <div class="comparison">
      <h3>{name}</h3>
      <VerdictWord {...verdicts[result.verdict]} />
      <p>{result.says}</p>
      <Twice id={drawn} draw={(id, width) => <FamilyBars id={id} width={width} {...bars} />} />
      <FoldedTable table={familyTable({ id: "", width: 0, ...bars })} />
      {shares.length > 0 && (
        <>
          <Twice
            id={`${drawn}-parts`}
            draw={(id, width) => <PartIntervals id={id} width={width} {...parts} />}
          />
          <FoldedTable table={partTable({ id: "", width: 0, ...parts })} />
        </>
      )}
      {result.hazards.map(({ kind, says }) => (
        <p key={kind}>
          <strong>Caution.</strong> {says}
        </p>
      ))}
      <p>{result.indistinguishable.says}</p>
      {spelled.length > 0 && <p class="quiet">By mass: {spelled.join("; ")}.</p>}
      {result.runs && <p>{runsWords(result.runs)}</p>}
      <DataTable
        caption={`What each piece of evidence says, ${name}`}
        head={["Evidence", "What it says beside the others"]}
        rows={result.contributions.flatMap(({ evidence: k, says }) => {
          const item = evidence.items[k];
          return item ? [[evidenceWords(item.evidence, page.units), says]] : [];
        })}
      />
      {result.next[0] && (
        <p>
          What would tell most for its time: {result.next[0].title.toLowerCase()}.{" "}
          {result.next[0].says}
        </p>
      )}
    </div>
  );
}
