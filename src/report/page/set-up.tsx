import type { ProductView, VesselView } from "../../trial/index.ts";
import { compressorNames, meteringNames } from "../names.ts";
import { DataTable } from "../pictures/picture.tsx";
import { accuracyText } from "./accuracy-text.ts";
import { type Page, substanceName } from "./context.ts";
import { typedText } from "./entry-sentence.ts";
import { Facts, Section, type SectionEntry } from "./section.tsx";

/** The vehicle, what was tried on it, and with which instruments. */
export const SetUp = ({ page, id, title }: { page: Page } & SectionEntry) => (
  <Section id={id} title={title}>
    <Vehicle page={page} />
    <Products page={page} />
    <Instruments page={page} />
    <Vessels page={page} />
  </Section>
);

function Vehicle({ page }: { page: Page }) {
  const { vehicle, opened } = page.view;
  const { units } = page;
  const volume = (value: number | undefined, thing: "cabin-volume" | "circuit-volume") =>
    value === undefined ? undefined : units.thing(thing).nominal(value);
  return (
    <>
      <h3>Vehicle</h3>
      {vehicle ? (
        <Facts
          facts={[
            ["Vehicle", vehicle.name],
            [
              "Label",
              `${vehicle.labelRefrigerant}, ${typedText(vehicle.labelChargeTyped)}, as declared`,
            ],
            ["Metering device", meteringNames[vehicle.meteringDevice]],
            ["Compressor", compressorNames[vehicle.compressor]],
            ["Oil", vehicle.oil],
            ["Cabin volume", volume(vehicle.cabinVolume, "cabin-volume")],
            ["Circuit volume", volume(vehicle.internalVolume, "circuit-volume")],
            [
              "Altitude",
              opened?.altitude === undefined
                ? undefined
                : units.thing("length").nominal(opened.altitude),
            ],
            ["Conditions planned", opened?.conditions],
          ]}
        />
      ) : (
        <p class="quiet">No vehicle was described.</p>
      )}
    </>
  );
}

const Products = ({ page }: { page: Page }) => (
  <>
    <h3>Products</h3>
    {page.view.products.length === 0 && <p class="quiet">No product was listed.</p>}
    {page.view.products.map((product) => (
      <Product key={product.id} product={product} />
    ))}
  </>
);

const Product = ({ product }: { product: ProductView }) => (
  <div class="product">
    <h4>{product.name}</h4>
    <Facts
      facts={[
        ["Declares", product.declares ?? product.fluid ?? "nothing about its composition"],
        ["Label mass", product.labelMassTyped && typedText(product.labelMassTyped)],
        ["Flammability mark", product.flammableMark ? "yes" : "no"],
        ["Fitting", product.fitting],
        ["Price", product.price],
      ]}
    />
    {product.claims.length > 0 && (
      <>
        <p class="quiet">Claims on the label, none of them decided by this report:</p>
        <ul class="claims">
          {product.claims.map((claim, i) => (
            <li key={i}>{claim}</li>
          ))}
        </ul>
      </>
    )}
  </div>
);

function Instruments({ page }: { page: Page }) {
  const { instruments } = page.view;
  return (
    <>
      <h3>Instruments and their accuracy</h3>
      {instruments.length === 0 ? (
        <p class="quiet">No instrument was listed, so no reading has an uncertainty.</p>
      ) : (
        <DataTable
          caption="Limits of error as stated; turned into standard uncertainties by the rules of the GUM"
          head={["Instrument", "Limit of error", "Resolution"]}
          rows={instruments.map((one) => [
            one.name,
            accuracyText(one),
            one.resolution ? typedText(one.resolution) : "–",
          ])}
        />
      )}
    </>
  );
}

function Vessels({ page }: { page: Page }) {
  const { view, units } = page;
  if (view.vessels.length === 0) return null;
  return (
    <>
      <h3>Vessels</h3>
      <DataTable
        caption="As listed at the start"
        head={["Vessel", "Tare", "Holds water", "Rated to", "Held at the start"]}
        rows={view.vessels.map((vessel) => [
          `${vessel.name}${vessel.flammableRated === true ? ", flammable-rated" : ""}${vessel.retestBy === undefined ? "" : `, retest due ${vessel.retestBy}`}`,
          vessel.tare === undefined ? "–" : units.thing("mass").nominal(vessel.tare),
          vessel.waterCapacity === undefined
            ? "–"
            : units.thing("circuit-volume").nominal(vessel.waterCapacity),
          vessel.ratedPressure === undefined
            ? "–"
            : units.thing("pressure").nominal(vessel.ratedPressure),
          heldText(vessel, page),
        ])}
      />
    </>
  );
}

function heldText({ holds }: VesselView, page: Page): string {
  if (!holds) return "empty";
  const mass = page.units.thing("small-mass").nominal(holds.mass);
  return `${mass} ${substanceName(page, holds.substance)}, ${holds.basis}`;
}
