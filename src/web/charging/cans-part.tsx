import { Figure, Figures } from "../fluids/said.tsx";
import type { ChargingProps } from "./target-part.tsx";

/** Which phase, how many cans, and what stays behind in them and in the hose. */
export function CansPart({ finding, units }: ChargingProps) {
  const { cans, phase } = finding;
  const mass = units.thing("small-mass");
  // Grams to the tenth, ounces to the thousandth.
  const fine = (kg: number): string => mass.text(kg, 1e-3);
  return (
    <section class="sheet service-sheet" aria-labelledby="cans">
      <h2 id="cans">Out of the can</h2>
      {phase && <Phase finding={finding} units={units} />}
      {!cans && (
        <p class="empty">
          Give the product’s label mass, and the cans are counted with what stays in them.
        </p>
      )}
      {cans && (
        <>
          <Figures>
            <Figure
              label="Cans to open"
              value={String(cans.cans)}
              small={`each gives ${mass.text(cans.delivered)}; the last one gives ${mass.text(cans.lastDraw)} and keeps ${mass.text(cans.spare)}`}
            />
            <Figure
              label="Vapour left in an emptied can"
              value={fine(cans.residue)}
              small={`${fine(cans.residueSaturated)} if it is only left to equalise with a resting system`}
            />
            <Figure
              label="In the charging hose"
              value={fine(cans.hose.vapour)}
              small={`as vapour; ${mass.text(cans.hose.liquid)} while it is full of liquid: clear it into the vehicle or count it`}
            />
          </Figures>
          <p class="quiet">
            Weigh the can before and after: the scale decides, not the count. Fill the emptied can
            with water to know its volume.
          </p>
        </>
      )}
    </section>
  );
}

const percent = (parts: readonly { fluid: string; fraction: number }[]): string =>
  parts.map(({ fluid, fraction }) => `${fluid} ${(100 * fraction).toFixed(0)} %`).join(", ");

function Phase({ finding, units }: ChargingProps) {
  const { phase, product } = finding;
  if (!phase) return null;
  if (phase.take === "either") {
    return (
      <p>
        <strong>Vapour or liquid.</strong> {product} is the same in both phases. Running: vapour
        into the low side. Liquid only with the engine off, or throttled so far that it boils on the
        way.
      </p>
    );
  }
  const glide = units.quantityDifference("vessel-temperature").text(phase.glide, phase.glide / 20);
  return (
    <p>
      <strong>Liquid, slowly.</strong> {product} boils over {glide.replace(/^\+/u, "")}. The vapour
      above it is {percent(phase.firstVapour ?? [])} instead of {percent(phase.asCharged)}: vapour
      from the top would charge another mixture and leave a third one in the can. Turn the can over,
      throttle, and never let liquid reach the suction of a running compressor.
    </p>
  );
}
