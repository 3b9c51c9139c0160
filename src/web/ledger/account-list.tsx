import { DataTable, type Shown } from "../../report/index.ts";
import type { Ledger } from "../../trial/index.ts";

interface Props {
  readonly ledger: Ledger;
  readonly shown: Shown;
}

/** Every account with its present mass, what it is made of, and its start. */
export const AccountList = ({ ledger, shown }: Props) => (
  <DataTable
    caption="Mass in each account, with 95 % intervals"
    head={["Account", "Now", "Of it", "At the start"]}
    rows={ledger.accounts.map(({ name, basis, mass, contents, initial }) => [
      basis === "declared" ? `${name}, declared` : name,
      shown.pair(mass),
      contents.length === 0
        ? "nothing"
        : contents.map((one) => `${one.name} ${shown.text(one.mass.value, one.mass.u)}`).join("; "),
      shown.pair(initial),
    ])}
  />
);
