import type { Shown } from "../../report/index.ts";
import type { Account, Ledger } from "../../trial/index.ts";

interface Props {
  readonly ledger: Ledger;
  readonly shown: Shown;
}

const bases: Readonly<Record<Account["basis"], string>> = {
  weighed: "weighed",
  declared: "declared",
  none: "",
};

/** Every account with its start, its present mass and what it is made of. */
export function AccountList({ ledger, shown }: Props) {
  return (
    <div class="table-room" role="region" aria-label="Accounts" tabIndex={0}>
      <table class="table">
        <caption>Mass in each account, with 95 % intervals</caption>
        <thead>
          <tr>
            <th scope="col">Account</th>
            <th scope="col">At the start</th>
            <th scope="col">Now</th>
            <th scope="col">Of it</th>
          </tr>
        </thead>
        <tbody>
          {ledger.accounts.map((account) => (
            <tr key={account.id}>
              <th scope="row">
                {account.name}
                {account.basis === "declared" && <small class="quiet"> · {bases[account.basis]}</small>}
              </th>
              <td class="figure">{shown.pair(account.initial)}</td>
              <td class="figure">{shown.pair(account.mass)}</td>
              <td>
                {account.contents.length === 0
                  ? "nothing"
                  : account.contents.map((content) => (
                      <span key={content.substance} class="content-part">
                        {content.name} <span class="figure">{shown.text(content.mass.value, content.mass.u)}</span>
                      </span>
                    ))}
              </td>
            </tr>
          ))}
        </tbody>
      </table>
    </div>
  );
}
