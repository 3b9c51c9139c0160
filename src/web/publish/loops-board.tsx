import { useEffect, useState } from "preact/hooks";
import {
  type MeasuredLoop,
  PressureEnthalpyChart,
  pressureEnthalpyTable,
  unitChoice,
} from "../../report/index.ts";
import { loopsOf } from "../engine/report-work.ts";
import { useIdentified } from "../engine/use-settled.ts";
import { PictureSheet } from "../pictures/picture-sheet.tsx";
import { events, view } from "../shell/log-keeper.ts";
import { preferences } from "../shell/preferences.ts";

const NOTE =
  "Coldproof. Model, not measured: the loop at the mean pressures of the runs parked at idle, a compressor without losses, 5 K of superheat and of subcooling (common practice, no source).";

/** Each charge on its diagram of pressure and enthalpy; worked out once somebody wants to see it. */
export function LoopsBoard() {
  const [wanted, setWanted] = useState(false);
  return (
    <section class="sheet" aria-labelledby="loops">
      <h2 id="loops">The loops, pressure and enthalpy</h2>
      {wanted ? (
        <Loops />
      ) : (
        <button
          type="button"
          class="button"
          onClick={() => {
            setWanted(true);
          }}
        >
          Draw the loops
        </button>
      )}
    </section>
  );
}

function Loops() {
  const { identified, working } = useIdentified();
  const log = events.value;
  const [loops, setLoops] = useState<readonly MeasuredLoop[] | "failed">();
  useEffect(() => {
    if (working) return;
    let current = true;
    void loopsOf(log, identified).then((found) => {
      if (current) setLoops(found ?? "failed");
    });
    return () => {
      current = false;
    };
  }, [log, identified, working]);
  if (loops === undefined) {
    return (
      <p class="quiet" role="status">
        Working out what each charge is and the lines of its diagram…
      </p>
    );
  }
  if (loops === "failed") {
    return <p>This device could not work them out. Open the page again, or use the report.</p>;
  }
  if (loops.length === 0) {
    return (
      <p class="empty">
        No charge is known well enough, with both pressures parked at idle, to draw its loop.
      </p>
    );
  }
  return (
    <>
      <p class="quiet">{NOTE.replace("Coldproof. ", "")}</p>
      {loops.map((loop) => (
        <Loop key={loop.product} loop={loop} />
      ))}
    </>
  );
}

function Loop({ loop: { product, name, fluid, picture } }: { readonly loop: MeasuredLoop }) {
  const { thing, quantity } = unitChoice(view.value, preferences.value.system);
  const props = {
    ...picture,
    id: `loop-${product}`,
    title: fluid === name ? `${name}: model of its loop` : `${name} (${fluid}): model of its loop`,
    shown: {
      p: thing("absolute-pressure"),
      h: thing("enthalpy"),
      T: quantity("vent-temperature"),
    },
  };
  return (
    <PictureSheet
      title={props.title}
      note={NOTE}
      table={pressureEnthalpyTable({ ...props, width: 0 })}
      draw={(width, height) => (
        <PressureEnthalpyChart {...props} width={width} {...(height !== undefined && { height })} />
      )}
    />
  );
}
