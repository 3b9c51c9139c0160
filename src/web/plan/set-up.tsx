import type { ComponentChildren } from "preact";
import { compressorNames, meteringNames, unitChoice } from "../../report/index.ts";
import type { TrialView } from "../../trial/index.ts";
import { Fold } from "../look/fold.tsx";
import { view } from "../shell/log-keeper.ts";
import { pathTo } from "../shell/route.ts";
import { instrumentWords } from "./accuracy-words.ts";

/** Everything the set-up has listed so far, each with a way to correct it and to add more. */
export function SetUp({ trial }: { readonly trial: string }) {
  const shared = { trial, view: view.value };
  return (
    <div class="set-up">
      <Question {...shared} />
      <Vehicle {...shared} />
      <Instruments {...shared} />
      <Products {...shared} />
      <Vessels {...shared} />
    </div>
  );
}

const Instruments = ({ trial, view: { instruments } }: ViewProps) => (
  <Group
    title="Instruments"
    kind="instrument"
    trial={trial}
    add="Add an instrument"
    empty="None yet. List the low-side gauge first: without instruments no reading carries an uncertainty."
  >
    {instruments.map((one) => (
      <Thing key={one.id} trial={trial} id={one.id} name={one.name} words={instrumentWords(one)} />
    ))}
  </Group>
);

const Products = ({ trial, view: { products } }: ViewProps) => (
  <Group
    title="Products"
    kind="product"
    trial={trial}
    add="Add a product"
    empty="None yet. List what is in the can as its label says; each product gets its own round of stages."
  >
    {products.map((one) => (
      <Thing key={one.id} trial={trial} id={one.id} name={one.name} words={productWords(one)} />
    ))}
  </Group>
);

const Vessels = ({ trial, view: seen }: ViewProps) => (
  <Group
    title="Vessels"
    kind="vessel"
    trial={trial}
    add="Add a vessel"
    empty="None yet. List the recovery cylinder with its tare, then each can."
  >
    {seen.vessels.map((one) => (
      <Thing
        key={one.id}
        trial={trial}
        id={one.id}
        name={one.name}
        words={vesselWords(seen, one)}
      />
    ))}
  </Group>
);

interface GroupProps {
  readonly title: string;
  readonly kind: string;
  readonly trial: string;
  readonly add?: string;
  readonly empty: string;
  readonly children: readonly ComponentChildren[];
}

/** More than these wait behind their number on a phone. */
const few = 3;

function Group({ title, kind, trial, add, empty, children }: GroupProps) {
  return (
    <section class="set-up-group" id={`set-up-${kind}`}>
      {children.length > few ? (
        <Fold level={2} title={title} said={`${children.length} listed`}>
          <ul class="rows">{children}</ul>
        </Fold>
      ) : (
        <>
          <h2>{title}</h2>
          {children.length === 0 ? <p class="empty">{empty}</p> : <ul class="rows">{children}</ul>}
        </>
      )}
      {add !== undefined && (
        <a class="button" href={pathTo("trial", trial, "add", kind)}>
          {add}
        </a>
      )}
    </section>
  );
}

interface ThingProps {
  readonly trial: string;
  readonly id: string;
  readonly name: string;
  readonly words: string;
}

const Thing = ({ trial, id, name, words }: ThingProps) => (
  <li>
    <a class="row has-act" href={pathTo("trial", trial, "correct", id)}>
      <span>
        <strong>{name}</strong>
        <small>{words}</small>
      </span>
      <span class="row-act">Correct</span>
    </a>
  </li>
);

interface ViewProps {
  readonly trial: string;
  readonly view: TrialView;
}

const airWords = (view: TrialView): string => {
  const air = unitChoice(view, "as-typed")
    .thing("air-pressure")
    .text(view.atmosphere.value, view.atmosphere.u);
  const from = {
    barometer: "by the barometer",
    altitude: "by the altitude",
    assumed: "assumed at sea level: give altitude or barometer",
  };
  return `Air ${air}, ${from[view.atmosphere.from]}`;
};

function Question({ trial, view: { opened }, view: seen }: ViewProps) {
  return (
    <Group title="Question and place" kind="question" trial={trial} empty="">
      {opened
        ? [
            <li key="question">
              <a class="row has-act" href={pathTo("trial", trial, "correct", opened.entry)}>
                <span>
                  <strong>{opened.question}</strong>
                  <small>
                    {[opened.place, airWords(seen)].filter((one) => one !== undefined).join(" · ")}
                  </small>
                </span>
                <span class="row-act">Correct</span>
              </a>
            </li>,
          ]
        : []}
    </Group>
  );
}

function Vehicle({ trial, view: seen }: ViewProps) {
  const { vehicle } = seen;
  const units = unitChoice(seen, "as-typed");
  return (
    <Group
      title="Vehicle"
      kind="vehicle"
      trial={trial}
      {...(!vehicle && { add: "Describe the vehicle" })}
      empty="Not described yet. Its label gives the refrigerant and the charge that everything is held against."
    >
      {vehicle
        ? [
            <Thing
              key="vehicle"
              trial={trial}
              id={vehicle.entry}
              name={vehicle.name}
              words={[
                `${vehicle.labelRefrigerant} ${units.thing("mass").text(vehicle.labelCharge)}`,
                meteringNames[vehicle.meteringDevice],
                compressorNames[vehicle.compressor],
                vehicle.oil,
              ]
                .filter((one) => one !== undefined)
                .join(", ")}
            />,
          ]
        : []}
    </Group>
  );
}

const productWords = (product: TrialView["products"][number]): string =>
  [
    product.declares,
    `${product.claims.length} ${product.claims.length === 1 ? "claim" : "claims"}`,
    product.flammableMark ? "flammable mark" : "no flammable mark",
  ]
    .filter((one) => one !== undefined && one !== "")
    .join(", ");

function vesselWords(view: TrialView, vessel: TrialView["vessels"][number]): string {
  const units = unitChoice(view, "as-typed");
  const kinds = {
    can: "can",
    cylinder: "recovery cylinder",
    "hose-set": "hose set",
    other: "vessel",
  };
  const parts = [
    kinds[vessel.kind],
    vessel.tare === undefined ? "tare not known" : `tare ${units.thing("mass").text(vessel.tare)}`,
    vessel.ratedPressure === undefined
      ? undefined
      : `rated ${units.thing("pressure").text(vessel.ratedPressure)}`,
    vessel.flammableRated === true ? "rated for flammables" : undefined,
    vessel.retestBy === undefined ? undefined : `retest due ${vessel.retestBy}`,
  ];
  return parts.filter((one) => one !== undefined).join(", ");
}
