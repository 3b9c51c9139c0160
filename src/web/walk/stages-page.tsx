import { view } from "../shell/log-keeper.ts";
import { pathTo } from "../shell/route.ts";
import { StageList } from "./stage-list.tsx";

/** The stage picker of a phone: any stage, in any order that reality forces. */
export function StagesPage({ trial }: { readonly trial: string }) {
  const { products } = view.value;
  return (
    <main class="page" id="main">
      <h1 tabIndex={-1}>Stages</h1>
      <p class="lead">
        Walk them in the order that the day allows. Each product has its own round, from Recover to
        Identify.
      </p>
      {products.length === 0 && (
        <p class="empty">
          List a product in Plan, and its round of Recover to Identify appears here.
        </p>
      )}
      <StageList trial={trial} parts={[]} />
      <a class="button" href={pathTo("trial", trial, "vehicle")}>
        What this vehicle should read
      </a>
    </main>
  );
}
