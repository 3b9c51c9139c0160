import type { ComponentType, VNode } from "preact";
import { useEffect, useState } from "preact/hooks";

type State<P> =
  | { readonly kind: "waiting" }
  | { readonly kind: "here"; readonly Part: ComponentType<P> }
  | { readonly kind: "failed" };

/**
 * A part of the app that is loaded when it is first shown, so that the screens for the bay come at once.
 * A part once loaded is shown without a wait.
 */
export function later<P extends object>(
  load: () => Promise<ComponentType<P>>,
): (props: P) => VNode {
  let loaded: ComponentType<P> | undefined;
  return function Later(props: P) {
    const [state, setState] = useState<State<P>>(
      loaded ? { kind: "here", Part: loaded } : { kind: "waiting" },
    );
    const [tries, setTries] = useState(0);
    useEffect(() => {
      if (loaded) {
        // Another place asked for it first, and it came between the drawing and now.
        setState({ kind: "here", Part: loaded });
        return;
      }
      load().then(
        (Part) => {
          loaded = Part;
          setState({ kind: "here", Part });
        },
        () => {
          setState({ kind: "failed" });
        },
      );
    }, [tries]);
    if (state.kind === "here") return <state.Part {...props} />;
    if (state.kind === "waiting") return <p class="quiet loading">Loading…</p>;
    return (
      <p class="objections" role="alert">
        This part of the app could not be loaded.{" "}
        <button
          type="button"
          class="button"
          onClick={() => {
            setState({ kind: "waiting" });
            setTries(tries + 1);
          }}
        >
          Try again
        </button>
      </p>
    );
  };
}
