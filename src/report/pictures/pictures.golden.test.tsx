import type { VNode } from "preact";
import { render } from "preact-render-to-string";
import { expect, test } from "vitest";
import { judge, ledger } from "../shuttle.fixture.ts";
import { shownDifference, shownIn } from "../shown.ts";
import { BandScale } from "./band-scale.tsx";
import { ComparisonChart } from "./comparison-chart.tsx";
import { HoldChart } from "./hold-chart.tsx";
import { MassColumns } from "./mass-columns.tsx";
import { TraceChart } from "./trace-chart.tsx";

// Golden: our own earlier pictures. They show a change for review and prove nothing.

const air = 93_870;
const pressure = shownIn("psig", air);
const celsius = shownIn("°C");
const readable = (picture: VNode): string => `${render(picture).replaceAll("><", ">\n<")}\n`;

const pictures: readonly (readonly [string, VNode])[] = [
  ["band-within", band("static-low")],
  ["band-outside", band("vacuum")],
  ["band-undecided", band("low-side")],
  [
    "mass-columns",
    <MassColumns id="m" title="Where it is" ledger={ledger} shown={shownIn("g")} width={358} />,
  ],
  [
    "trace",
    <TraceChart
      id="t"
      title="Vent air stood at 7 °C"
      width={358}
      lines={[
        {
          label: "vent",
          shown: celsius,
          t: [0, 60, 120, 180, 600, 660],
          values: [297, 290, 285, 281, 280.2, 280.1],
          settled: [{ from: 600, to: 660, measured: { value: 280.15, u: 0.8 } }],
        },
        { label: "low side", shown: pressure, t: [0, 660], values: [4e5, 3e5], settled: [] },
      ]}
      intervals={[{ from: 0, to: 660, label: "parked, idle" }]}
      gaps={[{ from: 180, to: 600 }]}
      problems={[90]}
    />,
  ],
  [
    "comparison",
    <ComparisonChart
      id="c"
      title="Vent air was warmer with product B"
      width={358}
      rows={[
        {
          name: "Vent air",
          shown: celsius,
          shownDifference: shownDifference("°C"),
          charges: [
            { name: "R134a", measured: { value: 280.25, u: 0.8 } },
            {
              name: "Product B",
              measured: { value: 282.75, u: 0.8 },
              difference: { value: 2.5, u: 0.4 },
            },
          ],
        },
      ]}
    />,
  ],
  [
    "hold",
    <HoldChart
      id="h"
      title="The hold levelled off"
      width={358}
      log
      shown={shownIn("micron")}
      t={[0, 300, 600, 900]}
      p={[54, 150, 200, 220]}
      levels={[{ p: 2985, label: "water boils at 24 °C" }]}
    />,
  ],
];

function band(quantity: "static-low" | "vacuum" | "low-side"): VNode {
  const verdict = judge(quantity);
  if (!verdict) throw new RangeError(`the fixture judges ${quantity}`);
  return (
    <BandScale
      id="b"
      title="A reading"
      width={358}
      shown={quantity === "vacuum" ? shownIn("micron") : pressure}
      reading={verdict.reading}
      verdict={verdict}
      {...(verdict.band && { band: verdict.band })}
    />
  );
}

test.each(pictures)("golden picture: %s", async (name, picture) => {
  const text = readable(picture);
  expect(text.length).toBeLessThan(20_000);
  await expect(text).toMatchFileSnapshot(`golden/${name}.svg.txt`);
});
