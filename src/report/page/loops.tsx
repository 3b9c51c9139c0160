import { measuredLoops } from "../measured-loops.ts";
import { FoldedTable } from "../pictures/picture.tsx";
import { PressureEnthalpyChart } from "../pictures/pressure-enthalpy.tsx";
import { pressureEnthalpyTable } from "../pictures/pressure-enthalpy-words.ts";
import type { Page } from "./context.ts";
import { Section, type SectionEntry, Twice } from "./section.tsx";
import { workedOut } from "./worked-out.ts";

/** Each charge on its own diagram, at the pressures that were read. */
export function Loops({ page, id, title }: { page: Page } & SectionEntry) {
  const loops = measuredLoops(page.view, workedOut(page.view).identified);
  const { thing, quantity } = page.units;
  const shown = {
    p: thing("absolute-pressure"),
    h: thing("enthalpy"),
    T: quantity("vent-temperature"),
  };
  return (
    <Section
      id={id}
      title={title}
      lead={
        loops.length === 0
          ? "No charge is known well enough, with both pressures parked at idle, to draw its loop."
          : "Model, not measured: the loop that the mean pressures of the runs parked at idle would drive, with a compressor without losses and with 5 K of superheat and of subcooling, which nobody read (common practice, no source). What each product is comes from what was identified, not from its label."
      }
    >
      {loops.map(({ product, name, fluid, picture }) => {
        const props = {
          ...picture,
          shown,
          title:
            fluid === name ? `${name}: model of its loop` : `${name} (${fluid}): model of its loop`,
        };
        return (
          <div class="comparison" key={product}>
            <h3>{name}</h3>
            <Twice
              id={`loop-${product}`}
              draw={(drawn, width) => <PressureEnthalpyChart {...props} id={drawn} width={width} />}
            />
            <FoldedTable table={pressureEnthalpyTable({ ...props, id: "", width: 0 })} />
          </div>
        );
      })}
    </Section>
  );
}
