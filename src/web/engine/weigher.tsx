import { useEffect } from "preact/hooks";
import { treatments } from "../../trial/index.ts";
import { view } from "../shell/log-keeper.ts";
import { keepTreated } from "./treated.ts";
import { useIdentified } from "./use-settled.ts";

/** Weighs what is in the cans; shows nothing. While it is at it, and after it has gone, the worst counts again. */
export function Weigher() {
  const seen = view.value;
  const { identified, working } = useIdentified();
  useEffect(() => {
    const { trial } = seen;
    keepTreated(working ? undefined : { trial, products: treatments(seen, identified) });
  }, [seen, identified, working]);
  useEffect(
    () => () => {
      keepTreated(undefined);
    },
    [],
  );
  return null;
}
